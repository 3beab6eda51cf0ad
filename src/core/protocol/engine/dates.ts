import { addSpanTo, type DayNumber } from '../../calendar.js';
import type { Schedule, Target } from '../document/document.js';
import { type Limit, limitsOf, plainStep, type StepKind, spanStep } from '../document/steps.js';
import { ageReached, calledSince, type Subject } from '../input.js';
import type { Progress } from '../progress.js';
import { keptAway } from './done.js';
import { startOf } from './walk.js';

/** One date that a rule gave on the way to a forecast. */
export interface Step {
  readonly kind: StepKind;
  readonly date: DayNumber;
  /** For an interval: the day it is counted from. */
  readonly from: DayNumber | null;
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

/**
 * When the open target may, should and must be met.
 * Earliest = the latest of minimum age, minimum intervals, products kept apart, arrival and the last one done.
 * Due = the recommended age, else the latest recommended interval, never before the earliest.
 * In time to the day before the latest recommended age, else interval, never before it is due.
 * Source: CDC, CDSi logic specification 4.5, FORECASTDTCAN-1, FORECASTDT-2 to -6, tables 7-11 and 7-13; arrival added here.
 */
export function datesOf(subject: Subject, schedule: Schedule, target: Target, way: Way): Dates {
  const steps: [Step, ...Step[]] = [{ kind: plainStep.born, date: subject.born.oldest, from: null }];
  const intervals = startsOf(subject, target, way);
  pushLowerLimits(subject, target, way, intervals, steps);
  let decided = latestOf(steps);
  const free = keptApart(subject, schedule, decided);
  if (free !== null) {
    steps.push(free);
    decided = free;
  }
  const earliest = decided.date;

  const limits = limitsOf(target);
  const recommended =
    ageStep(subject, limits.age.earliestRecommended) ?? latestInterval(intervals, 'earliestRecommended');
  if (recommended !== null) {
    steps.push(recommended);
    if (recommended.date > earliest) decided = recommended;
  }
  const due = decided.date;
  const late = ageStep(subject, limits.age.latestRecommended) ?? latestInterval(intervals, 'latestRecommended');
  if (late !== null) steps.push(late);
  const end = ageStep(subject, limits.age.maximum) ?? ageStep(subject, limits.end);
  if (end !== null) steps.push(end);
  return {
    earliest,
    due,
    overdueAfter: late === null ? null : Math.max(late.date - 1, due),
    latest: end === null ? null : end.date - 1,
    steps,
    decided,
  };
}

/** The step with the latest date; of several the first, so that what people think of first stands first. */
function latestOf(steps: readonly [Step, ...Step[]]): Step {
  let [latest] = steps;
  for (const one of steps) if (one.date > latest.date) latest = one;
  return latest;
}

/** An interval of the target that has begun, with the day it is counted from. */
interface Begun {
  readonly limits: ReturnType<typeof limitsOf>['intervals'][number];
  readonly from: DayNumber;
}

function startsOf(subject: Subject, target: Target, way: Way): Begun[] {
  const begun: Begun[] = [];
  const { intervals } = limitsOf(target);
  for (const limits of intervals) {
    const from = startOf(subject, limits.interval, way, subject.today);
    if (from !== null) begun.push({ limits, from });
  }
  return begun;
}

function pushLowerLimits(subject: Subject, target: Target, way: Way, intervals: readonly Begun[], steps: Step[]): void {
  for (const { limits, from } of intervals) {
    if (limits.least !== null) steps.push(intervalStep(limits.least, from));
  }
  const age = ageStep(subject, limitsOf(target).age.least);
  if (age !== null) steps.push(age);
  if (target.on.is === 'arrival') steps.push({ kind: plainStep.arrival, date: subject.arrived, from: null });
  else if (target.on.is !== 'age') {
    const since = calledSince(subject, target.on);
    if (since !== null) steps.push({ kind: plainStep.seen, date: since, from: null });
  }
  if (way.last !== null) steps.push({ kind: plainStep['last-done'], date: way.last, from: null });
}

const intervalStep = (limit: Limit, from: DayNumber): Step => ({
  kind: limit.kind,
  date: addSpanTo(from, limit.span),
  from,
});

const ageStep = (subject: Subject, limit: Limit | null): Step | null =>
  limit === null ? null : { kind: limit.kind, date: ageReached(subject, limit), from: null };

function latestInterval(intervals: readonly Begun[], limit: 'earliestRecommended' | 'latestRecommended'): Step | null {
  let latest: Step | null = null;
  for (const { limits, from } of intervals) {
    const said = limits[limit];
    if (said === null) continue;
    const one = intervalStep(said, from);
    if (latest === null || one.date > latest.date) latest = one;
  }
  return latest;
}

/** The first day from a day on that is in no window after another product, if that moves it. */
function keptApart(subject: Subject, schedule: Schedule, start: Step): Step | null {
  const windows = keptAway(schedule, subject.input, subject.today);
  if (windows.length === 0) return null;
  // In order of their ends each window needs to be looked at once: a move never goes back into an earlier one.
  windows.sort((a, b) => a.ends - b.ends);
  let moved: Step | null = null;
  // First from the day it was open, then from today: what is late already must not fall into a window either.
  for (const asked of [start.date, subject.today]) {
    for (const { begins, ends, span, source } of windows) {
      const date = Math.max(asked, moved?.date ?? start.date);
      if (date >= begins && date < ends) moved = { kind: spanStep('apart', span, source), date: ends, from: null };
    }
  }
  return moved;
}
