import type { Animal } from '../../../core/animal/animal.js';
import { amountInWords, amountOrdered } from '../../../core/animal/order-amount.js';
import { isOrdered, orderNamed, type PlacedOrder } from '../../../core/animal/vet-order.js';
import type { CalendarDate } from '../../../core/calendar.js';
import { type CourseState, courseState } from '../../../core/dosing/course.js';
import type { Product } from '../../../core/dosing/formulary.js';
import { isLabelStop, type OpenedGate } from '../../../core/dosing/gate.js';
import type { OrderedAmount } from '../../../core/dosing/ordered.js';
import type { ProductId, ScheduleId } from '../../../core/ids.js';

/** The veterinarian's order that a line stands for, and what it says of the amount. */
interface OrderOfSchedule {
  readonly order: PlacedOrder;
  readonly amount: OrderedAmount;
}

/** The one place that says what an order's line is given by on a day. Null for a line of the protocol, or for none. */
export function orderOfSchedule(
  animal: Pick<Animal, 'orders'>,
  schedule: ScheduleId | null,
  on: CalendarDate,
): OrderOfSchedule | null {
  const order = orderNamed(animal, schedule);
  return order === null ? null : { order, amount: amountOrdered(order.terms, on) };
}

/**
 * The words that count on a line. On one of an order its stops of the label are open as far as the order itself opened them,
 * to the last day that it names, and by nothing else.
 */
export function openedOnLine(
  words: readonly OpenedGate[],
  order: PlacedOrder | null,
  product: ProductId,
): readonly OpenedGate[] {
  if (order === null) return words;
  const { opens, vet } = order.terms;
  const others = words.map((word) => ({ ...word, gates: word.gates.filter((code) => !isLabelStop(code)) }));
  if (!isOrdered(order)) return others;
  const own = opens.map(({ gate, reason, until }) => ({
    record: order.record,
    gates: [gate],
    product,
    by: vet,
    reason,
    until,
  }));
  return [...others, ...own];
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
  const order = orderNamed(animal, schedule);
  if (order === null) return product.course === null ? null : courseState(product.course, given, now);
  const { ends } = order.terms;
  if (amountInWords(order.terms) !== null || ends.is !== 'after-doses') return null;
  const own = animal.history
    .flatMap((event) => (event.what === 'given' && event.schedule === schedule && event.at <= now ? [event.at] : []))
    .sort();
  const number = Math.min(own.length + 1, ends.doses);
  return { number, of: ends.doses, lastAt: own.at(-1) ?? null, dueAt: null };
}
