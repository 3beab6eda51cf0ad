import type { Decimal } from 'decimal.js';
import { epochMs } from '../calendar.js';
import { exactly, plain } from '../quantity/exact.js';

export interface TimedWeight {
  /** Instant, UTC text. */
  readonly at: string;
  /** Whole grams. */
  readonly grams: number;
}

export interface Gain {
  readonly hours: number;
  readonly grams: number;
  /** Grams in 24 hours over the real hours between the two, up to two decimals, signed text. */
  readonly gramsPerDay: string;
  /** Change in percent of the earlier weight, up to two decimals, signed text. */
  readonly percent: string;
}

/** Hours between two instants, fractions kept. */
export const hoursBetween = (from: string, to: string): number => (epochMs(to) - epochMs(from)) / 3_600_000;

/** Grams gained in 24 hours, exact; null when no time has passed. */
export function gramsPerDay(before: TimedWeight, after: TimedWeight): Decimal | null {
  const hours = hoursBetween(before.at, after.at);
  return hours <= 0
    ? null
    : exactly(after.grams - before.grams)
        .mul(24)
        .div(exactly(hours));
}

/** Gain between two weighings, in the order of time; null when no time lies between them. */
export function gainBetween(before: TimedWeight, after: TimedWeight): Gain | null {
  const perDay = gramsPerDay(before, after);
  if (perDay === null) return null;
  const grams = after.grams - before.grams;
  return {
    hours: hoursBetween(before.at, after.at),
    grams,
    gramsPerDay: plain(perDay, 2),
    percent: plain(exactly(grams).div(before.grams).mul(100), 2),
  };
}

/** Until 8 weeks of age an ill kitten is a matter of hours (ours). */
export const gainUntilDays = 56;
