import { Temporal } from 'temporal-polyfill';
import { exactly } from '../quantity/exact.js';
import { type Said, said } from '../said.js';
import type { RecentDose } from './dose-question.js';
import type { Product } from './formulary.js';
import { type Gate, gate } from './gate.js';
import type { Course } from './handling.js';

/** Days of a course on which something is given, counted from 1, both ends included, one pair a stretch. */
export function courseDays(course: Course): {
  readonly days: readonly (readonly [number, number])[];
  readonly doses: number;
} {
  const aDay = Math.max(1, Math.floor(24 / course.everyHours));
  const gap = Math.max(1, Math.round(course.everyHours / 24));
  const stretch = course.everyHours < 24 ? Math.ceil(course.doses / aDay) : (course.doses - 1) * gap + 1;
  const days = Array.from({ length: course.stretches }, (_, index) => {
    const first = index * (stretch + course.restDays) + 1;
    return [first, first + stretch - 1] as const;
  });
  return { days, doses: course.doses * course.stretches };
}

export interface CourseState {
  /** Number of the dose to give now, from 1. */
  readonly number: number;
  readonly of: number;
  /** When the one before was given; null before the first. */
  readonly lastAt: string | null;
  /** When this one falls due, UTC text; null before the first. */
  readonly dueAt: string | null;
}

/**
 * Where an animal stands in a course of a product, from the doses it has had, in any order. A new course begins when the
 * last one is complete, or when the gap is longer than three times what the course asks for.
 */
export function courseState(course: Course, given: readonly string[], now: string): CourseState {
  const all = courseDays(course).doses;
  const current = msOf(now);
  const before = given
    .map(msOf)
    .filter((at) => at <= current)
    .sort((a, b) => a - b);
  let number = 0;
  let last: number | null = null;
  for (const at of before) {
    const wanted = last === null ? 0 : intervalAfter(course, number);
    if (last !== null && (number >= all || at - last > wanted * 3)) number = 0;
    number++;
    last = at;
  }
  const wanted = last === null ? 0 : intervalAfter(course, number);
  if (last === null || number >= all || current - last > wanted * 3) {
    return { number: 1, of: all, lastAt: last === null ? null : textOf(last), dueAt: null };
  }
  return { number: number + 1, of: all, lastAt: textOf(last), dueAt: textOf(last + wanted) };
}

/** Milliseconds from the dose with this number to the next; a stretch ends with its rest. */
function intervalAfter(course: Course, number: number): number {
  const rest = number % course.doses === 0 ? course.restDays * 24 : 0;
  return (course.everyHours + rest) * 3_600_000;
}

/** A dose that is part of a course and comes this much before its time is too early: a quarter of the interval; ours. */
const early_share = 0.25;

/** Gates of a course and of the limits of a day, from the doses of this product that the animal has had. */
export function courseGates(
  product: Product,
  recent: readonly RecentDose[],
  now: string,
  grams: number | null,
  ug: string | null,
): Gate[] {
  const own = recent.filter((one) => one.product === product.id);
  const gates: Gate[] = [];
  if (product.course !== null && own.length > 0) {
    const state = courseState(
      product.course,
      own.map((one) => one.at),
      now,
    );
    const early = product.course.everyHours * 3_600_000 * early_share;
    if (state.dueAt !== null && msOf(now) < msOf(state.dueAt) - early) {
      gates.push(
        gate(
          'too-soon-in-course',
          'stop',
          said('dose.gate.course-early', {
            product: product.name,
            number: state.number,
            of: state.of,
            last: { instant: state.lastAt ?? now },
            due: { instant: state.dueAt },
          }),
        ),
      );
    }
  }
  const { perDay } = product;
  if (perDay === null || own.length === 0) return gates;
  const within = (hours: number): RecentDose[] =>
    own.filter((one) => msOf(one.at) <= msOf(now) && msOf(now) - msOf(one.at) < hours * 3_600_000);
  const today = within(24);
  const why = tooMuchInADay(product, perDay, today, grams, ug) ?? tooManyDays(product, perDay.daysInARow, own, now);
  if (why !== null) gates.push(gate('too-often', 'stop', why));
  return gates;
}

function tooMuchInADay(
  product: Product,
  perDay: NonNullable<Product['perDay']>,
  today: readonly RecentDose[],
  grams: number | null,
  ug: string | null,
): Said | null {
  if (perDay.doses !== null && today.length >= perDay.doses) {
    return said('dose.gate.doses-a-day', { product: product.name, most: perDay.doses, given: today.length });
  }
  const own = product.ingredients[0]?.mg_per_ml ?? null;
  if (perDay.mg_per_kg === null || grams === null || ug === null) return null;
  const before = today.reduce(
    (sum, one) => sum.add(exactly(one.volume_ul ?? 0).mul(one.strength_mg_per_ml ?? own ?? 0)),
    exactly(0),
  );
  const most = exactly(perDay.mg_per_kg).mul(grams);
  if (before.add(ug).lte(most)) return null;
  return said('dose.gate.mg-a-day', {
    product: product.name,
    most: { micrograms: most.floor().toNumber() },
    given: { micrograms: before.round().toNumber() },
  });
}

/** Doses on this many days in a row, today not counted, already reach the limit. */
function tooManyDays(product: Product, most: number | null, own: readonly RecentDose[], now: string): Said | null {
  if (most === null) return null;
  let days = 0;
  let at = msOf(now);
  for (const before of own.map((one) => msOf(one.at)).sort((a, b) => b - a)) {
    // Longer than a day and a half after the one before: the row is broken.
    if (at - before > 36 * 3_600_000) break;
    if (at - before >= 12 * 3_600_000) {
      days++;
      at = before;
    }
  }
  return days >= most ? said('dose.gate.days-in-a-row', { product: product.name, most, days }) : null;
}

const msOf = (instant: string): number => Temporal.Instant.from(instant).epochMilliseconds;
const textOf = (ms: number): string => Temporal.Instant.fromEpochMilliseconds(ms).toString();
