import type { Animal } from '../../../core/animal/animal.js';
import type { PlacedOrder } from '../../../core/animal/vet-order.js';
import type { CalendarDate } from '../../../core/calendar.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { dueIn, type World } from '../world.js';

/** An order as needed that runs, with what is due of it: never a day. */
export interface RunsAsNeeded {
  readonly order: PlacedOrder;
  readonly item: DueItem;
}

/** The orders as needed of an animal that run on a day, held ones too. */
export function runningAsNeeded(world: World, animal: Animal, today: CalendarDate): RunsAsNeeded[] {
  if (animal.left !== null) return [];
  const orders = animal.orders.filter(({ terms }) => terms.timing.is === 'as-needed');
  return orders.flatMap((order) => {
    const item = dueIn(world, animal, today).find((one) => one.order === order.record);
    return item?.status === 'when-needed' || item?.status === 'on-hold' ? [{ order, item }] : [];
  });
}
