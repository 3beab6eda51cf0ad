import { isOrderSchedule } from '../../../core/animal/vet-order.js';
import type { ScheduleId } from '../../../core/ids.js';
import type { Schedule } from '../../../core/protocol/document/document.js';
import type { Shelter } from '../shelter.js';

type Protocols = Pick<Shelter, 'protocol' | 'protocols'>;

/** Where orders stand in one visit: after blood, chip and injections, before what goes on the skin. */
const orderOfOrders = 55;

/** Place of a schedule, or of a veterinarian's order, in one visit; what no document has comes last. */
export const visitOrderOf = (shelter: Protocols, id: ScheduleId): number =>
  isOrderSchedule(id) ? orderOfOrders : (scheduleNamed(shelter, id)?.visitOrder ?? Number.MAX_SAFE_INTEGER);

/** A schedule of the protocol in force, else of the last version filed that has it: old records keep their names. */
export function scheduleNamed(shelter: Protocols, id: ScheduleId): Schedule | null {
  const inForce = shelter.protocol?.schedules.find((schedule) => schedule.id === id);
  if (inForce !== undefined) return inForce;
  for (const filed of shelter.protocols.toReversed()) {
    const found = filed.document.schedules.find((schedule) => schedule.id === id);
    if (found !== undefined) return found;
  }
  return null;
}
