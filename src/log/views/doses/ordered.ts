import type { Animal } from '../../../core/animal/animal.js';
import { amountInWords, orderSchedule, type PlacedOrder } from '../../../core/animal/vet-order.js';
import { type CourseState, courseState } from '../../../core/dosing/course.js';
import type { Product } from '../../../core/dosing/formulary.js';
import type { ScheduleId } from '../../../core/ids.js';

/** The veterinarian's order that a line stands for, and what it says of the amount. */
interface Ordered {
  readonly order: PlacedOrder;
  /** The amount in the order's own words, or null where the formulary's is meant. */
  readonly inWords: string | null;
}

/** The one place that says what an order's line is given by. Null for a line of the protocol, or for none. */
export function orderOfSchedule(animal: Pick<Animal, 'orders'>, schedule: ScheduleId | null): Ordered | null {
  if (schedule === null) return null;
  const order = animal.orders.find((one) => orderSchedule(one.record) === schedule);
  return order === undefined ? null : { order, inWords: amountInWords(order.terms) };
}

/**
 * Which dose of its course a line is: by the formulary for a line of the protocol. An order says itself how many there
 * are, if it does; the course of the formulary never stands beside it.
 */
export function courseOfLine(
  animal: Animal,
  schedule: ScheduleId,
  product: Product,
  given: readonly string[],
  now: string,
): CourseState | null {
  const ordered = orderOfSchedule(animal, schedule);
  if (ordered === null) return product.course === null ? null : courseState(product.course, given, now);
  const { ends } = ordered.order.terms;
  if (ordered.inWords !== null || ends.is !== 'after-doses') return null;
  const own = animal.history
    .flatMap((event) => (event.what === 'given' && event.schedule === schedule && event.at <= now ? [event.at] : []))
    .sort();
  const number = Math.min(own.length + 1, ends.doses);
  return { number, of: ends.doses, lastAt: own.at(-1) ?? null, dueAt: null };
}
