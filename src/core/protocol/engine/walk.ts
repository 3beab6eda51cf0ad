import { addSpanTo, type DayNumber } from '../../calendar.js';
import type { Condition, Interval, Schedule, Series, Skip, Target } from '../document/document.js';
import { ageReached, calledSince, implantedOn, known, type Subject } from '../input.js';
import type { Done, Judgement, Progress, Reason } from '../progress.js';
import { keptAway } from './done.js';

/** What of a way the conditions of the protocol ask about. */
export interface Counted {
  readonly of: Schedule['id'];
  place: number;
  doses: DayNumber[];
  lapsed: boolean;
  readonly lastResult: Done['result'];
}

interface Way {
  readonly of: Schedule['id'];
  place: number;
  doses: DayNumber[];
  lapsed: boolean;
  lastResult: Done['result'];
  last: DayNumber | null;
  firstValid: DayNumber | null;
}

/**
 * The way of one animal through one series, dose by dose.
 *
 *   done, in order of days -> [ fault? ] -> [ same day? ] -> [ which target is open? ] -> [ age ] -> [ intervals ] -> [ apart ]
 *                                                                                       valid: the target is met, on to the next
 *
 * Invariants: a dose meets at most the one target that is open; a dose that is not valid leaves it open; nothing dated
 * after today or before birth changes anything; the same history in any order gives the same way.
 * Source of the model: CDC, CDSi logic specification 4.5, chapters 4 and 6.
 *
 * Every series of the schedule is walked; the one is kept that the age at the first valid dose, or now, calls for.
 */
export function progressIn(subject: Subject, schedule: Schedule, done: readonly Done[]): Progress {
  for (const series of schedule.series) {
    const { when } = series.start;
    if (when.length > 0 && !when.every((condition) => mayBeSo(subject, condition))) continue;
    const way: Way = {
      of: schedule.id,
      place: 0,
      doses: [],
      lapsed: false,
      lastResult: null,
      last: null,
      firstValid: null,
    };
    const judged: Judgement[] = [];
    for (const one of done) judged.push(judge(subject, schedule, series, one, way));
    if (!isFor(subject, series, way.firstValid ?? Math.max(subject.today, subject.arrived))) continue;
    if (when.length > 0 && !when.every((condition) => isTrue(subject, condition, way, subject.today))) continue;
    settle(subject, series, way, subject.today);
    const { place, doses, lapsed, lastResult, last } = way;
    return { schedule, series, judged, place, doses, lapsed, lastResult, last, lastJudged: lastOf(judged) };
  }
  const judged = done.map((one) => outsideAnySeries(subject, one));
  return { ...notBegun(schedule), judged, lastJudged: lastOf(judged) };
}

/** Of a schedule that has no series for the animal, or is not walked yet. */
export const notBegun = (schedule: Schedule): Progress => ({
  schedule,
  series: null,
  judged: [],
  place: 0,
  doses: [],
  lapsed: false,
  lastResult: null,
  last: null,
  lastJudged: null,
});

/** False for what is not so today whatever the animal was given: then the series need not be walked. */
function mayBeSo(subject: Subject, condition: Condition): boolean {
  if (condition.is === 'observed') return known(subject, condition.code, subject.today).state === 'present';
  return condition.is !== 'neutered' || subject.input.animal.neutered === condition.state;
}

/** The last judgement that is about this animal's past: nothing dated in the future or before birth. */
function lastOf(judged: readonly Judgement[]): Judgement | null {
  for (let at = judged.length - 1; at >= 0; at -= 1) {
    const one = judged[at];
    if (one !== undefined && one.reason !== 'in-the-future' && one.reason !== 'before-birth') return one;
  }
  return null;
}

function isFor(subject: Subject, series: Series, start: DayNumber): boolean {
  const { from, under } = series.start;
  if (from !== undefined && start < ageReached(subject, from)) return false;
  return under === undefined || start < ageReached(subject, under);
}

function judgement(
  done: Done,
  status: Judgement['status'],
  reason: Reason,
  way: Way | null = null,
  target: Target | null = null,
  validFrom: DayNumber | null = null,
): Judgement {
  return {
    done,
    status,
    reason,
    dose: way === null || target === null ? null : way.doses.length + 1,
    target,
    validFrom,
  };
}

function impossible(subject: Subject, done: Done): Reason | null {
  if (done.on > subject.today) return 'in-the-future';
  return done.on < subject.born.oldest ? 'before-birth' : null;
}

function outsideAnySeries(subject: Subject, done: Done): Judgement {
  const wrongDay = impossible(subject, done);
  return wrongDay === null ? judgement(done, 'extra', 'not-recommended') : judgement(done, 'not-valid', wrongDay);
}

function judge(subject: Subject, schedule: Schedule, series: Series, done: Done, way: Way): Judgement {
  const wrongDay = impossible(subject, done);
  if (wrongDay !== null) return judgement(done, 'not-valid', wrongDay);
  const most = Math.max(1, series.targets[way.place]?.times.length ?? 1);
  if (done.fault === null && doneOn(way, done.on) >= most) return judgement(done, 'extra', 'same-day');

  settle(subject, series, way, done.on);
  const target = series.targets[way.place] ?? null;
  const previous = way.last;
  if (done.spaces) way.last = done.on;
  if (done.fault !== null) return judgement(done, statusOfFault(done.fault), done.fault, way, target);
  if (target === null || !clockRuns(subject, target, way, done.on)) return judgement(done, 'extra', 'series-complete');

  const timing = judgeTiming(subject, schedule, series, target, done.on, { doses: way.doses, last: previous });
  if (timing.reason !== 'in-time' && timing.reason !== 'grace') {
    const status = timing.reason === 'too-old' ? 'extra' : 'not-valid';
    return judgement(done, status, timing.reason, way, target, timing.validFrom);
  }
  const valid = judgement(done, 'valid', timing.reason, way, target);
  way.doses.push(done.on);
  way.lapsed = false;
  way.lastResult = done.result ?? way.lastResult;
  way.firstValid ??= done.on;
  // A day of several times that is not full is still open: the next one counts from the day before.
  if (doneOn(way, done.on) < target.times.length) way.last = done.on - 1;
  if (target.repeats === null) way.place += 1;
  return valid;
}

/** How many valid ones a day has. */
function doneOn({ doses }: Pick<Way, 'doses'>, day: DayNumber): number {
  let count = 0;
  // Doses are in order of their days: those of one day stand together at the end.
  for (let at = doses.length - 1; at >= 0 && doses[at] === day; at -= 1) count += 1;
  return count;
}

function statusOfFault(fault: Reason): Judgement['status'] {
  if (fault === 'running' || fault === 'not-confirmed') return 'pending';
  return fault === 'expired-lot' || fault === 'withdrawn-lot' || fault === 'not-taken' ? 'substandard' : 'not-valid';
}

/**
 * Move on over targets that are over on this day: repeated ones whose end is reached, and those that are left out.
 * A gap that is too long takes the way back to its beginning first.
 */
export function settle(subject: Subject, series: Series, way: Counted, on: DayNumber): void {
  const lastValid = way.doses.at(-1);
  const open = series.targets[way.place];
  const gap = open?.restartAfter ?? null;
  if (gap !== null && lastValid !== undefined && on > addSpanTo(lastValid, gap.span)) {
    way.place = 0;
    way.doses = [];
    way.lapsed = true;
  }
  passOver(subject, series, way, on);
  // Only now is it known whether the series is through: what is left out at its end is passed.
  if (series.again === null || way.place < series.targets.length || lastValid === undefined) return;
  const { state, since } = known(subject, series.again, on);
  if (state !== 'present' || since === null || since <= lastValid) return;
  way.place = 0;
  way.doses = [];
  passOver(subject, series, way, on);
}

function passOver(subject: Subject, series: Series, way: Counted, on: DayNumber): void {
  for (let target = series.targets[way.place]; target !== undefined; target = series.targets[way.place]) {
    if (!isOver(subject, target, way.doses.at(-1), on) && !isSkipped(subject, target, way, on)) return;
    way.place += 1;
  }
}

function isOver(subject: Subject, target: Target, lastValid: DayNumber | undefined, on: DayNumber): boolean {
  if (target.repeats === null || target.repeats.until === null) return false;
  const end = ageReached(subject, target.repeats.until);
  return target.repeats.ends === 'before' ? on >= end : lastValid !== undefined && lastValid >= end;
}

const isSkipped = (subject: Subject, target: Target, way: Counted, on: DayNumber): boolean =>
  target.skip.some((skip) => holds(subject, skip, way, on));

const holds = (subject: Subject, skip: Skip, way: Counted, on: DayNumber): boolean =>
  skip.all.every((condition) => isTrue(subject, condition, way, on));

function isTrue(subject: Subject, condition: Condition, way: Counted, on: DayNumber): boolean {
  switch (condition.is) {
    case 'observed':
      return known(subject, condition.code, on).state === 'present';
    case 'doses': {
      const from = condition.from === undefined ? Number.NEGATIVE_INFINITY : ageReached(subject, condition.from);
      return way.doses.filter((day) => day >= from).length >= condition.atLeast;
    }
    case 'age':
      if (condition.from !== undefined && on < ageReached(subject, condition.from)) return false;
      return condition.under === undefined || on < ageReached(subject, condition.under);
    case 'complete': {
      const other = subject.scheduleOf(condition.schedule);
      return other !== undefined && isComplete(subject, subject.progressOf(other));
    }
    case 'result': {
      // Of the schedule that is being walked the way itself knows best.
      if (condition.schedule === way.of) return way.lastResult === condition.result;
      const other = subject.scheduleOf(condition.schedule);
      return other !== undefined && subject.progressOf(other).lastResult === condition.result;
    }
    case 'neutered':
      return subject.input.animal.neutered === condition.state;
  }
}

/** No target is open today but one that keeps up what has been reached, and nothing that was seen calls for it. */
export function isComplete(subject: Subject, progress: Progress): boolean {
  if (progress.series === null) return false;
  const target = progress.series.targets[progress.place];
  if (target === undefined) return true;
  const { is } = target.on;
  return target.upkeep && (is === 'age' || is === 'arrival' || !isCalledFor(subject, target, progress));
}

/**
 * A need seen, or a chip put in, on a later day than the last one done: what was treated the day it was seen is not
 * asked for again. What goes on for a while calls for it as long as it goes on, a clock until one after its end counts.
 */
export function isCalledFor(
  subject: Subject,
  target: Target,
  progress: Pick<Progress, 'last' | 'doses' | 'lapsed'>,
): boolean {
  const { on } = target;
  if (on.is === 'clock') return clockRuns(subject, target, progress, subject.today);
  const since = calledSince(subject, on);
  if (since === null) return false;
  const once = on.is === 'observation' || on.is === 'implant';
  return !once || progress.lapsed || progress.last === null || since > progress.last;
}

/** False for a clock that does not run on a day: then nobody has called for anything. */
function clockRuns(subject: Subject, target: Target, way: Pick<Progress, 'doses'>, on: DayNumber): boolean {
  if (target.on.is !== 'clock') return true;
  const { state, since } = known(subject, target.on.code, on);
  const last = way.doses.at(-1);
  if (state !== 'present' || since === null) return false;
  return last === undefined || last < clockEnd(target, target.on.code, since);
}

function clockEnd(target: Target, code: string, since: DayNumber): DayNumber {
  let end = since + 1;
  for (const { from, minimum, absoluteMinimum } of target.intervals) {
    const least = absoluteMinimum ?? minimum;
    if (from.is !== 'observation' || from.code !== code || least === undefined) continue;
    end = Math.max(end, addSpanTo(since, least.span));
  }
  return end;
}

interface Timing {
  readonly reason: Reason;
  readonly validFrom: DayNumber | null;
}

const inTime: Timing = { reason: 'in-time', validFrom: null };
const byGrace: Timing = { reason: 'grace', validFrom: null };

function judgeTiming(
  subject: Subject,
  schedule: Schedule,
  series: Series,
  target: Target,
  on: DayNumber,
  way: Pick<Way, 'doses' | 'last'>,
): Timing {
  const { absoluteMinimum, minimum, maximum } = target.age;
  let grace = false;
  const startsAt = series.start.from === undefined ? null : ageReached(subject, series.start.from);
  if (startsAt !== null && on < startsAt) return { reason: 'too-young', validFrom: startsAt };
  const least = absoluteMinimum ?? minimum;
  if (least !== undefined && on < ageReached(subject, least)) {
    return { reason: 'too-young', validFrom: ageReached(subject, least) };
  }
  if (minimum !== undefined && on < ageReached(subject, minimum)) grace = true;
  if (maximum !== undefined && on >= ageReached(subject, maximum)) return { reason: 'too-old', validFrom: null };

  for (const interval of target.intervals) {
    const from = startOf(subject, interval, way, on);
    const shortest = interval.absoluteMinimum ?? interval.minimum;
    if (from === null || shortest === undefined) continue;
    const validFrom = addSpanTo(from, shortest.span);
    if (on < validFrom) return { reason: 'too-soon', validFrom };
    if (interval.minimum !== undefined && on < addSpanTo(from, interval.minimum.span)) grace = true;
  }
  for (const { begins, ends } of keptAway(schedule, subject.input, Number.POSITIVE_INFINITY)) {
    if (on >= begins && on < ends) return { reason: 'too-near-other-product', validFrom: ends };
  }
  return grace ? byGrace : inTime;
}

/** The day an interval is counted from, as far as it has happened by a day; null when it has not. */
export function startOf(
  subject: Subject,
  interval: Interval,
  way: Pick<Progress, 'doses' | 'last'>,
  by: DayNumber,
): DayNumber | null {
  switch (interval.from.is) {
    case 'previous':
      return way.last;
    case 'dose':
      return way.doses[interval.from.number - 1] ?? null;
    case 'arrival':
      return subject.arrived;
    case 'implant':
      return implantedOn(subject);
    case 'observation':
      return known(subject, interval.from.code, by).since;
    case 'schedule': {
      const other = subject.scheduleOf(interval.from.schedule);
      if (other === undefined) return null;
      const earlier = subject
        .progressOf(other)
        .judged.filter(({ status, done }) => status !== 'pending' && done.on <= by);
      return earlier.findLast(({ done }) => done.spaces)?.done.on ?? null;
    }
  }
}
