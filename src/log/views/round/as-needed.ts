import type { Animal } from '../../../core/animal/animal.js';
import { orderSchedule } from '../../../core/animal/vet-order.js';
import type { CalendarDate } from '../../../core/calendar.js';
import { recordedFor } from '../../../core/protocol/vet-orders/order-slots.js';
import { type RunsAsNeeded, runningAsNeeded } from '../due/as-needed.js';
import { inputOf } from '../engine-input.js';
import type { World } from '../world.js';
import type { RoundLine } from './round.js';

/** An order as needed, as whoever has the animal in hand meets it: no line of the plan, and to be given at any time. */
export interface AsNeeded extends RunsAsNeeded {
  /** Always open; its record is the last thing that was recorded for it, by which a second press is known. */
  readonly line: RoundLine;
}

export const asNeededOf = (world: World, animal: Animal, today: CalendarDate): AsNeeded[] =>
  runningAsNeeded(world, animal, today).map(({ order, item }) => ({
    order,
    item,
    line: {
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
    },
  }));
