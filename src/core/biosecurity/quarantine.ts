import { addDays, type CalendarDate, daysBetween } from '../calendar.js';

/**
 * Counting of quarantine and observation days. The day of exposure (or bite, or diagnosis) is day 0 and the animal is
 * released at the start of day N. How many days is the protocol's or the authority's word, never ours.
 * Source of the day count and of the restart: University of Florida, Shelter Animal Physical Health, quarantine of
 * exposed animals.
 */
export interface Quarantine {
  readonly exposedOn: CalendarDate;
  /** Day 0 of the clock that runs now: the exposure, or the last case that restarted it. */
  readonly from: CalendarDate;
  /** First day on which the animals are free again. */
  readonly release: CalendarDate;
  /** Days of new cases that restarted the clock, in order. */
  readonly restarts: readonly CalendarDate[];
  /** Cases on or after the release: a new exposure, to be looked at by a person. */
  readonly afterRelease: readonly CalendarDate[];
}

/** First day of freedom after so many whole days from day 0. */
export const releaseDay = (day0: CalendarDate, days: number): CalendarDate => addDays(day0, days);

/** Number of a day in a clock that started on day 0; negative before it. */
export const dayOfClock = (day0: CalendarDate, today: CalendarDate): number => daysBetween(day0, today);

/** First day of the trace-back window: so many days of longest incubation before the first sick animal. */
export const traceBackFrom = (firstSick: CalendarDate, days: number): CalendarDate => addDays(firstSick, -days);

/**
 * The quarantine of a group that shared air: every new case among them before the release starts the clock again for
 * the rest. Cases before the exposure change nothing. `days` is a whole number of at least 0.
 */
export function quarantineOf(
  exposedOn: CalendarDate,
  days: number,
  newCases: readonly CalendarDate[] = [],
): Quarantine {
  const restarts: CalendarDate[] = [];
  const afterRelease: CalendarDate[] = [];
  let from = exposedOn;
  for (const day of [...newCases].sort()) {
    if (day <= from) continue;
    if (day >= releaseDay(from, days)) {
      afterRelease.push(day);
    } else {
      restarts.push(day);
      from = day;
    }
  }
  return { exposedOn, from, release: releaseDay(from, days), restarts, afterRelease };
}

export interface QuarantineDay {
  /** 0 on the day of exposure. */
  readonly day: number;
  readonly daysLeft: number;
  readonly released: boolean;
}

/** Where a quarantine stands today. */
export function quarantineDay(quarantine: Quarantine, today: CalendarDate): QuarantineDay {
  const daysLeft = Math.max(0, daysBetween(today, quarantine.release));
  return { day: dayOfClock(quarantine.from, today), daysLeft, released: daysLeft === 0 };
}
