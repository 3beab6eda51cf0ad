import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { forecastOrders } from '../../core/protocol/vet-orders/order-forecast.js';
import type { OwnValues, Raise } from '../flag.js';
import type { LogRecord } from '../record.js';
import { protocolFor } from '../views/due/due.js';
import { inputOf } from '../views/engine-input.js';
import type { Ground } from '../views/ground.js';

/**
 * Orders that are over with doses missed: told to the medical team with how many, also after the animal has left, until
 * it answers or a veterinarian ends or renews the order.
 */
export function orderMissedFlags(
  animal: Animal,
  ground: Ground,
  standing: readonly LogRecord[],
  today: CalendarDate,
  raise: Raise,
): void {
  if (animal.orders.length === 0) return;
  const on = animal.left !== null && animal.left.on < today ? animal.left.on : today;
  for (const item of forecastOrders(inputOf(animal, ground), protocolFor(ground, animal.section), on)) {
    const order = item.status === 'ended-missed' ? standing.find(({ id }) => id === item.order) : undefined;
    if (order === undefined) continue;
    // The flag says what the list says of it.
    const said = item.because.with as OwnValues<'order-missed'>;
    raise('order-missed', 'stop', order, ['medical', 'supervisor'], said);
  }
}
