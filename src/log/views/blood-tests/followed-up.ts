import type { TestRun } from '../../../core/animal/animal.js';
import { type FollowUp, type FollowUpDoubt, longestPlan_days } from '../../../core/animal/follow-up.js';
import { dayOfInstant, daysBetween } from '../../../core/calendar.js';
import type { RecordId, ScheduleId } from '../../../core/ids.js';
import type { LogRecord } from '../../record.js';
import { isMedical, roleAt } from '../documents/ground-on.js';
import { inOrderOfSaying, pathOf, rootOf } from '../effective.js';
import type { Ground } from '../ground.js';

type Word = LogRecord<'test-followed-up'>;
type Runs = readonly TestRun[];

/**
 * What followed the reactive tests of an animal, each with why it settles nothing, if it does not. A result that others
 * than the medical team corrected into a plan, or into an unclear one, is still what followed.
 */
export const foldFollowUps = (
  standing: readonly LogRecord[],
  records: readonly LogRecord[],
  runs: Runs,
  ground: Ground,
): FollowUp[] =>
  standing.filter(isWord).map((word): FollowUp => {
    const { id: record } = word;
    const open = openResults(records, runs, ground, word.body.schedule);
    const result = outcomeOf(word) === null ? open.findLast((one) => rootIn(records, one) === record) : undefined;
    const { happenedAt: at, by, body } = result ?? word;
    const doubt = doubtOf(result ?? word, runs, ground) ?? besideOthers(result ?? word, records, runs, ground);
    return { record, at, by, ...body, ...(doubt === null ? {} : { doubt }) };
  });

/** The last result of a schedule and one that says otherwise, before it; null while the medical team need not say which. */
export function differingResults(
  records: readonly LogRecord[],
  runs: Runs,
  ground: Ground,
  schedule: ScheduleId,
): readonly [Word, Word] | null {
  const open = openResults(records, runs, ground, schedule);
  const last = open.at(-1);
  const other = open.findLast((one) => last !== undefined && outcomeOf(one) !== outcomeOf(last));
  return last === undefined || other === undefined ? null : [other, last];
}

/** Why a word settles nothing, whatever others say. */
function doubtOf(word: Word, runs: Runs, ground: Ground): FollowUpDoubt | null {
  const { schedule, says, person } = word.body;
  if (roleAt(ground, person, word.recordedAt) !== 'medical') return 'person';
  const told = dayOfInstant(word.happenedAt, word.zone);
  if (says.is === 'plan') return daysBetween(told, says.on) > longestPlan_days ? 'plan-far' : null;
  if (says.on > told) return 'ahead';
  const read = runs
    .filter((run) => run.schedule === schedule && run.result === 'reactive')
    .flatMap(({ readAt }) => (readAt === null || readAt > word.happenedAt ? [] : [readAt]))
    .sort()
    .at(-1);
  return read !== undefined && says.on < dayOfInstant(read, ground.zone) ? 'before-reading' : null;
}

function besideOthers(word: Word, records: readonly LogRecord[], runs: Runs, ground: Ground): FollowUpDoubt | null {
  const { schedule } = word.body;
  // A standing record has the body of the version of it that was said last.
  const isOpen = openResults(records, runs, ground, schedule).some(({ body }) => body === word.body);
  if (outcomeOf(word) === null && !isOpen) return null;
  if (differingResults(records, runs, ground, schedule) !== null) return 'differs';
  return isOpen ? null : 'replaced';
}

/**
 * The results of a schedule from the last one on that the medical team wrote anew with its own hand, in the order in which
 * they were said. One that was corrected or withdrawn is still among them, unless the medical team withdrew it; and so is
 * what the medical team corrected one into, be it a plan.
 */
function openResults(records: readonly LogRecord[], runs: Runs, ground: Ground, schedule: ScheduleId): readonly Word[] {
  const order = inOrderOfSaying(records);
  const find = (id: RecordId) => records.find((one) => one.id === id);
  const said = order
    .filter(isWord)
    .filter((word) => word.body.schedule === schedule && (outcomeOf(word) !== null || isUndoing(word)))
    .filter((word) => doubtOf(word, runs, ground) === null && !isTakenBack(word));
  const own = said.findLastIndex((word) => isMedical(ground, word) && !changesAnother(word));
  return said.slice(Math.max(own, 0));

  function isTakenBack({ id }: Word): boolean {
    return order.some((one) => one.corrects === id && one.kind === 'record-withdrawn' && isMedical(ground, one));
  }
  /** It corrects a result into something else: no answer to which of the two holds. */
  function changesAnother(word: Word): boolean {
    const before = pathOf<LogRecord>(word, find).slice(1).filter(isWord).map(outcomeOf);
    return before.some((outcome) => outcome !== null && outcome !== outcomeOf(word));
  }
  function isUndoing(word: Word): boolean {
    return isMedical(ground, word) && changesAnother(word);
  }
}

const rootIn = (records: readonly LogRecord[], word: Word): RecordId =>
  rootOf<LogRecord>(word, (id) => records.find((one) => one.id === id)).id;

const isWord = (record: LogRecord): record is Word => record.kind === 'test-followed-up';

/** What a result says that settles something; null for a plan and for an unclear one. */
const outcomeOf = ({ body: { says } }: Word): 'confirmed' | 'not-confirmed' | null =>
  says.is === 'result' && says.outcome !== 'unclear' ? says.outcome : null;
