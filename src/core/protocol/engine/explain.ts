import { type DayNumber, dayFromNumber } from '../../calendar.js';
import { type Said, type SayValue, said } from '../../said.js';
import type { Schedule, Series, Target } from '../document/document.js';
import { limitsOf, sinceSaid } from '../document/steps.js';
import type { Subject } from '../input.js';
import type { Judgement, Progress, Reason } from '../progress.js';
import type { Dates, Step } from './dates.js';

/**
 * Why an item is due when it is, in sentences such as "Core vaccine 4 is due 12 March: 2 weeks after dose 3 on
 * 26 February. The series ends at 20 weeks." The title of the source is put beside them by whoever shows them.
 */
export interface Open {
  readonly schedule: Schedule;
  readonly series: Series;
  readonly progress: Progress;
  readonly target: Target;
  readonly dose: number;
  readonly dates: Dates;
}

const day = (number: DayNumber): SayValue => ({ date: dayFromNumber(number) });

/** Why a target that is open is due on its day, and what ends it. */
export function openSaid(subject: Subject, open: Open): Said {
  const { repeats } = open.target;
  const reason = becauseSaid(subject, open);
  const span = limitsOf(open.target).until;
  if (repeats === null || span === null) return reason;
  const next = open.series.targets[open.series.targets.indexOf(open.target) + 1];
  if (next !== undefined && !next.upkeep) return said('due.then-changes', { reason, span });
  return repeats.ends === 'before' ? said('due.then-stops', { reason, span }) : said('due.then-ends', { reason, span });
}

function becauseSaid(subject: Subject, open: Open): Said {
  const { progress, dates } = open;
  const what = whatSaid(open);
  const date = day(dates.due);
  const failed = failedLast(progress);
  if (failed !== null && (dates.decided.kind.rule === 'last-done' || dates.due <= failed.done.on)) {
    return said('due.again', { what, date, on: day(failed.done.on), reason: reasonSaid(failed.reason) });
  }
  if (open.target.times.length > 1) {
    return said('due.times', { what, date, times: { list: open.target.times } });
  }
  const step = dates.decided;
  const { rule, length: span } = step.kind;
  switch (rule) {
    case 'minimum-interval':
    case 'recommended-interval':
      return intervalSaid(open, step, what, date);
    case 'minimum-age':
    case 'recommended-age':
      return isEstimated(subject)
        ? said('due.age.estimated', { what, date, span })
        : said('due.age', { what, date, span });
    case 'arrival':
      return said('due.arrival', { what, date });
    case 'seen':
      return said('due.seen', { what, date });
    case 'apart':
      return said('due.apart', { what, date, span });
    case 'last-done':
      return said('due.last-done', { what, date });
    default:
      return said('due.open', { what, date });
  }
}

function intervalSaid(open: Open, step: Step, what: Said, date: SayValue): Said {
  const span = step.kind.length;
  if (step.from === null || step.kind.what === null) return said('due.open', { what, date });
  const on = day(step.from);
  if (step.kind.what !== 'previous') {
    return said('due.interval.since', { what, date, span, on, since: sinceSaid(step.kind.what) });
  }
  const { lastJudged, doses } = open.progress;
  if (doses.at(-1) === step.from) {
    return isNumbered(open.schedule)
      ? said('due.interval', { what, date, span, on, previous: open.dose - 1 })
      : said('due.interval.last', { what, date, span, on });
  }
  // The dose before did not meet its target, but the next one still keeps its distance from it.
  const reason = reasonSaid(lastJudged?.reason ?? 'too-soon');
  return said('due.interval.not-counted', { what, date, span, on, reason });
}

/** Doses of a course are numbered; a test, a chip, a weighing or a single treatment is not. */
const isNumbered = (schedule: Schedule): boolean =>
  schedule.action === 'give' &&
  schedule.series.some(({ targets }) => targets.length > 1 || targets[0]?.repeats !== null);

const whatSaid = (open: Pick<Open, 'schedule' | 'dose'>): Said =>
  isNumbered(open.schedule)
    ? said('due.what.dose', { schedule: open.schedule.name, dose: open.dose })
    : said('due.what', { schedule: open.schedule.name });

const isEstimated = (subject: Subject): boolean => subject.born.oldest !== subject.born.youngest;

function failedLast(progress: Progress): Judgement | null {
  const last = progress.lastJudged;
  if (last === null) return null;
  return failures.includes(last.reason) ? last : null;
}

const failures: readonly Reason[] = [
  'test-invalid',
  'test-outside-window',
  'test-read-early',
  'test-read-late',
  'test-lots-differ',
  'test-no-times',
  'test-kit-unknown',
  'test-abandoned',
  'not-taken',
];

/** Why nothing more is to be done: met, or too old for it. */
export function endedSaid(subject: Subject, schedule: Schedule, progress: Progress, lastDay?: DayNumber): Said {
  if (lastDay !== undefined) return said('due.aged-out', { schedule: schedule.name, date: day(lastDay) });
  const count = progress.doses.length;
  const last = progress.doses.at(-1);
  if (schedule.action === 'chip') {
    const chip = subject.input.animal.chip?.code ?? '';
    return chip === '' ? said('due.complete', { schedule: schedule.name }) : said('due.complete.chip', { chip });
  }
  if (last === undefined) return said('due.complete.not-needed', { schedule: schedule.name });
  return count === 1
    ? said('due.complete.once', { schedule: schedule.name, on: day(last) })
    : said('due.complete.series', { schedule: schedule.name, count, on: day(last) });
}

/** Complete, and when it is kept up next. */
export const keptUpSaid = (ended: Said, next: Said): Said => said('due.complete.next', { ended, next });

export const notHereSaid = (schedule: Schedule): Said => said('due.not-here', { schedule: schedule.name });

export const notNeededSaid = (schedule: Schedule): Said => said('due.not-recommended', { schedule: schedule.name });

/** A treatment done only on need. */
export const onNeedSaid = (schedule: Schedule): Said => said('due.on-need', { schedule: schedule.name });

/** The same once it was done, and the day before which it may not be done again. */
export const onNeedAgainSaid = (schedule: Schedule, { last }: Progress, earliest: DayNumber): Said =>
  last === null
    ? onNeedSaid(schedule)
    : said('due.on-need.again', { schedule: schedule.name, on: day(last), date: day(earliest) });

/** What one thing done was worth to a schedule, as a sentence. */
export function judgementSaid(schedule: Schedule, judgement: Judgement): Said {
  const on = day(judgement.done.on);
  const reason = reasonSaid(judgement.reason);
  const { dose } = judgement;
  const values = { schedule: schedule.name, on, reason };
  // Whether it counts as a test says nothing about what it found.
  if (judgement.done.result === 'reactive') return said('due.judged.reactive', { schedule: schedule.name, on });
  switch (judgement.status) {
    case 'valid':
      return isNumbered(schedule) && dose !== null
        ? said('due.judged.valid-dose', { ...values, dose })
        : said('due.judged.valid', values);
    case 'not-valid':
      return judgement.validFrom === null
        ? said('due.judged.not-valid', values)
        : said('due.judged.not-valid-until', { ...values, date: day(judgement.validFrom) });
    case 'extra':
      return said('due.judged.extra', values);
    case 'substandard':
      return said('due.judged.substandard', values);
    case 'pending':
      return said('due.judged.pending', values);
  }
}

/** Clauses that fit after a colon. */
export const reasonSaid = (reason: Reason): Said => said(`due.reason.${reason}`);
