import type { Animal } from '../../../core/animal/animal.js';
import { dayOfInstant } from '../../../core/calendar.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { isLapsed, lapsedHold } from '../../../core/protocol/vet-orders/lapse.js';
import type { Shelter } from '../shelter.js';
import { dueIn, type World } from '../world.js';

/**
 * What is due to an animal at an instant (UTC text), where something is about to be planned, printed, drawn up or given: as
 * on its day, but an order told by telephone that has lapsed by then is on hold. The list of a day knows days only.
 */
export const dueAt = (world: World, animal: Animal, now: string): readonly DueItem[] =>
  dueIn(world, animal, dayOfInstant(now, world.shelter.zone)).map((item) => itemAt(item, animal, world.shelter, now));

/** The same for one item. */
export function itemAt(item: DueItem, { orders }: Animal, { protocol }: Shelter, now: string): DueItem {
  const order = item.order === undefined ? undefined : orders.find(({ record }) => record === item.order);
  const mayBe = item.status === 'due' || item.status === 'overdue' || item.status === 'when-needed';
  if (order === undefined || !mayBe || !isLapsed(order, protocol, now)) return item;
  return { ...item, status: 'on-hold', hold: lapsedHold(order, protocol) };
}
