import type { ScheduleId } from '../../core/ids.js';
import type { Schedule } from '../../core/protocol/document.js';
import type { Shelter } from './shelter.js';

/** A schedule of the protocol in force, else of the last version filed that has it: old records keep their names. */
export function scheduleNamed(shelter: Shelter, id: ScheduleId): Schedule | null {
  const inForce = shelter.protocol?.schedules.find((schedule) => schedule.id === id);
  if (inForce !== undefined) return inForce;
  for (const filed of shelter.protocols.toReversed()) {
    const found = filed.document.schedules.find((schedule) => schedule.id === id);
    if (found !== undefined) return found;
  }
  return null;
}
