import { addSpanTo, type DayNumber, type Span } from '../calendar.js';
import type { SourceId } from '../ids.js';
import type { IntervalStart, Schedule, SourcedSpan, Target } from './document.js';
import { keptAway } from './done.js';
import { ageReached, calledSince, type Subject } from './input.js';
import type { Progress } from './progress.js';
import { startOf } from './walk.js';

/** One date that a rule gave on the way to a forecast. */
export interface Step {
  readonly rule:
    | 'born'
    | 'arrival'
    | 'seen'
    | 'minimum-age'
    | 'minimum-interval'
    | 'apart'
    | 'last-done'
    | 'recommended-age'
    | 'recommended-interval'
    | 'late-age'
    | 'late-interval'
    | 'maximum-age'
    | 'end-age';
  readonly date: DayNumber;
  readonly span: Span | null;
  readonly source: SourceId | null;
  /** For an interval: what it is counted from and the day that was. */
  readonly from: { readonly what: IntervalStart['is']; readonly on: DayNumber } | null;
}

export interface Dates {
  readonly earliest: DayNumber;
  readonly due: DayNumber;
  /** Last day on which it is in time; null when no source says. */
  readonly overdueAfter: DayNumber | null;
  /** Last day on which it may be done at all. */
  readonly latest: DayNumber | null;
  readonly steps: readonly Step[];
  /** The step that decided the due day. */
  readonly decided: Step;
}

type Way = Pick<Progress, 'doses' | 'last'>;

const step = (rule: Step['rule'], date: DayNumber, said?: SourcedSpan, from: Step['from'] = null): Step => ({
  rule,
  date,
  span: said?.span ?? null,
  source: said?.source ?? null,
  from,
});

/**
 * When the open target may, should and must be met.
 * Earliest = the latest of minimum age, minimum intervals, products kept apart, arrival and the last one done.
 * Due = the recommended age, else the latest recommended interval, never before the earliest.
 * In time to the day before the latest recommended age, else interval, never before it is due.
 * Source: CDC, CDSi logic specification 4.5, FORECASTDTCAN-1, FORECASTDT-2 to -6, tables 7-11 and 7-13; arrival added here.
 */
export function datesOf(subject: Subject, schedule: Schedule, target: Target, way: Way): Dates {
  const lower = lowerLimits(subject, target, way);
  const free = keptApart(subject, schedule, latestOf(lower));
  if (free !== null) lower.push(free);
  const decidedEarliest = latestOf(lower);
  const earliest = decidedEarliest.date;

  const recommended = recommendedOf(subject, target, way);
  const decided = recommended !== null && recommended.date > earliest ? recommended : decidedEarliest;
  const due = decided.date;

  const late = lateOf(subject, target, way);
  const end = endOf(subject, target);
  return {
    earliest,
    due,
    overdueAfter: late === null ? null : Math.max(late.date - 1, due),
    latest: end === null ? null : end.date - 1,
    steps: [...lower, recommended, late, end].filter((one) => one !== null),
    decided,
  };
}

/** The step with the latest date; of several the first, so that what people think of first stands first. */
const latestOf = (steps: readonly [Step, ...Step[]]): Step =>
  steps.reduce((latest, one) => (one.date > latest.date ? one : latest));

function lowerLimits(subject: Subject, target: Target, way: Way): [Step, ...Step[]] {
  const steps: [Step, ...Step[]] = [step('born', subject.born.oldest)];
  for (const interval of target.intervals) {
    const least = interval.minimum ?? interval.absoluteMinimum;
    const from = startOf(subject, interval, way, subject.today);
    if (least === undefined || from === null) continue;
    steps.push(step('minimum-interval', addSpanTo(from, least.span), least, { what: interval.from.is, on: from }));
  }
  const age = target.age.minimum ?? target.age.absoluteMinimum;
  if (age !== undefined) steps.push(step('minimum-age', ageReached(subject, age), age));
  if (target.on.is === 'arrival') steps.push(step('arrival', subject.arrived));
  if (target.on.is !== 'age' && target.on.is !== 'arrival') {
    const since = calledSince(subject, target.on);
    if (since !== null) steps.push(step('seen', since));
  }
  if (way.last !== null) steps.push(step('last-done', way.last));
  return steps;
}

/** The first day from a day on that is in no window after another product, if that moves it. */
function keptApart(subject: Subject, schedule: Schedule, start: Step): Step | null {
  const windows = keptAway(schedule, subject.input, subject.today);
  // In order of their ends each window needs to be looked at once: a move never goes back into an earlier one.
  windows.sort((a, b) => a.ends - b.ends);
  let moved: Step | null = null;
  // First from the day it was open, then from today: what is late already must not fall into a window either.
  for (const asked of [start.date, subject.today]) {
    for (const { begins, ends, span, source } of windows) {
      const date = Math.max(asked, moved?.date ?? start.date);
      if (date >= begins && date < ends) moved = { rule: 'apart', date: ends, span, source, from: null };
    }
  }
  return moved;
}

function recommendedOf(subject: Subject, target: Target, way: Way): Step | null {
  const age = target.age.earliestRecommended;
  if (age !== undefined) return step('recommended-age', ageReached(subject, age), age);
  return latestInterval(subject, target, way, 'earliestRecommended', 'recommended-interval');
}

function lateOf(subject: Subject, target: Target, way: Way): Step | null {
  const age = target.age.latestRecommended;
  if (age !== undefined) return step('late-age', ageReached(subject, age), age);
  return latestInterval(subject, target, way, 'latestRecommended', 'late-interval');
}

function latestInterval(
  subject: Subject,
  target: Target,
  way: Way,
  limit: 'earliestRecommended' | 'latestRecommended',
  rule: 'recommended-interval' | 'late-interval',
): Step | null {
  let latest: Step | null = null;
  for (const interval of target.intervals) {
    const said = interval[limit];
    const from = startOf(subject, interval, way, subject.today);
    if (said === undefined || from === null) continue;
    const date = addSpanTo(from, said.span);
    if (latest === null || date > latest.date) latest = step(rule, date, said, { what: interval.from.is, on: from });
  }
  return latest;
}

/** The first day on which it is too late. */
function endOf(subject: Subject, target: Target): Step | null {
  const { maximum } = target.age;
  if (maximum !== undefined) return step('maximum-age', ageReached(subject, maximum), maximum);
  const until = target.repeats?.ends === 'before' ? target.repeats.until : null;
  return until === null ? null : step('end-age', ageReached(subject, until), until);
}
