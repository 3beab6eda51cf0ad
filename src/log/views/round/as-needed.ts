import type { Animal } from '../../../core/animal/animal.js';
import { orderSchedule, type PlacedOrder } from '../../../core/animal/vet-order.js';
import type { CalendarDate } from '../../../core/calendar.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { recordedFor } from '../../../core/protocol/vet-orders/order-slots.js';
import { inputOf } from '../engine-input.js';
import { dueIn, type World } from '../world.js';
import type { RoundLine } from './round.js';

/** An order as needed, as whoever has the animal in hand meets it: no line of the plan, and to be given at any time. */
export interface AsNeeded {
  readonly order: PlacedOrder;
  readonly item: DueItem;
  /** Always open; its record is the last thing that was recorded for it, by which a second press is known. */
  readonly line: RoundLine;
}

/** The orders as needed of an animal that run on a day, held ones too. */
export function asNeededOf(world: World, animal: Animal, today: CalendarDate): AsNeeded[] {
  if (animal.left !== null) return [];
  const orders = animal.orders.filter(({ terms }) => terms.timing.is === 'as-needed');
  return orders.flatMap((order) => {
    const item = dueIn(world, animal, today).find((one) => one.order === order.record);
    if (item === undefined || (item.status !== 'when-needed' && item.status !== 'on-hold')) return [];
    const line: RoundLine = {
      animal: animal.id,
      schedule: orderSchedule(order.record),
      name: order.terms.name,
      action: item.action,
      state: 'open',
      reason: '',
      record: recordedFor(inputOf(animal, world.ground), order).at(-1)?.record ?? null,
      run: null,
      abnormal: false,
      asNeeded: true,
    };
    return [{ order, item, line }];
  });
}
