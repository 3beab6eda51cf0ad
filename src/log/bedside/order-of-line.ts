import type { Animal } from '../../core/animal/animal.js';
import { orderNamed, type PlacedOrder } from '../../core/animal/vet-order.js';
import type { OrderNow } from '../../core/protocol/vet-orders/order-now.js';
import { ordersNow } from '../views/due/due.js';
import type { Shelter } from '../views/shelter.js';

/** The veterinarian's order that a line stands for, with the one time of it that may be done now. */
export interface OrderOfLine {
  readonly order: PlacedOrder;
  readonly stand: OrderNow;
}

/** Null for a line of the protocol. */
export function orderOfLine(animal: Animal, shelter: Shelter, schedule: string, now: string): OrderOfLine | null {
  const order = orderNamed(animal, schedule);
  const stand = order === null ? undefined : ordersNow(animal, shelter, now).get(order.record);
  return order === null || stand === undefined ? null : { order, stand };
}

/** What a record of this line says about which item of the order it was: that of the moment it was recorded. */
export function dueAtOf(animal: Animal, shelter: Shelter, schedule: string, now: string) {
  const found = orderOfLine(animal, shelter, schedule, now);
  const time = found?.stand.mayDo ?? null;
  // What is given as needed is given for no time.
  return time === null || found?.order.terms.timing.is === 'as-needed' ? null : { on: time.on, at: time.at };
}
