import type { Animal, TestRun } from '../../../core/animal/animal.js';
import { type FollowUp, settles } from '../../../core/animal/follow-up.js';
import { lampCode } from '../../../core/animal/lamp.js';
import { rankOrder } from '../../../core/biosecurity/section.js';
import { type CalendarDate, dayOfInstant } from '../../../core/calendar.js';
import { derived } from '../../../core/derived.js';
import type { Role } from '../../../core/people.js';
import { isUnsettled } from '../../../core/protocol/engine/to-confirm.js';
import { said } from '../../../core/said.js';
import { deskAndMedical, type Raise, type Raised, writerOf } from '../../flag.js';
import type { LogRecord } from '../../record.js';
import { keptSaid, seenThatKeepsApart } from '../../views/apart/keep-apart.js';
import { confirmFor, testsStanding } from '../../views/blood-tests/tests-standing.js';
import { roleAt } from '../../views/documents/ground-on.js';
import { effective } from '../../views/effective.js';
import type { Ground } from '../../views/ground.js';
import { ofKinds } from '../../views/parts.js';
import { type Section, type Shelter, sectionOf } from '../../views/shelter.js';
import { wordSaid } from './follow-up-flags.js';
import { hasUncountedMark, laterWord, uncountedMarks } from './mark-flags.js';

const inCharge: readonly Role[] = ['supervisor', 'medical', 'caregiver'];

/**
 * Reactive tests. Words alone do not close such a flag: a further result does, or a plan with a day and a person, until
 * that day is over.
 */
export function reactiveFlags(
  animal: Animal,
  ground: Ground,
  standing: readonly LogRecord[],
  today: CalendarDate,
): Raised[] {
  return animal.runs.flatMap((run): Raised[] => {
    const read = run.result === 'reactive' ? standing.find((record) => record.id === run.readRecord) : undefined;
    if (read === undefined) return [];
    const confirm = confirmFor(animal, ground, run.schedule, today);
    const word = confirm?.followUp ?? null;
    // A test that the protocol asked for later and that was negative is a further result, too.
    const holds = isUnsettled(confirm);
    const closes = confirm === null || confirm.state === 'planned' || !isUnsettled(confirm);
    const at = word?.at ?? read.happenedAt;
    const followUp =
      confirm === null
        ? { said: said('flag.reactive.later-negative'), by: read.by, at, closes, holds }
        : word === null
          ? null
          : { said: wordSaid(word), by: word.by, at, closes, holds };
    return [reactiveFlag(animal, run, read, followUp)];
  });
}

export function reactiveFlag(
  { id, name }: Pick<Animal, 'id' | 'name'>,
  run: TestRun,
  read: LogRecord,
  followUp: NonNullable<Raised['followUp']> | null,
): Raised {
  const faint = Object.values(run.seen).includes('faint');
  return {
    key: `reactive:${read.id}`,
    code: 'reactive',
    severity: 'stop',
    animal: id,
    about: read.id,
    raisedAt: read.happenedAt,
    for: inCharge,
    why: said(faint ? 'flag.reactive.faint' : 'flag.reactive', {
      animal: name,
      lot: run.kitLot || said('desk.lot-unknown'),
    }),
    by: read.by,
    ...writerOf(read),
    followUp,
  };
}

/** What the lamp showed, tests never read, and what was done with an animal that has something open. */
export function openFlags(
  animal: Animal,
  ground: Ground,
  standing: readonly LogRecord[],
  today: CalendarDate,
  raise: Raise,
): void {
  for (const record of standing) {
    if (record.kind === 'observation-noted' && record.body.code === lampCode) {
      const { answer } = record.body;
      if (answer === 'glow') raise('lamp-glow', 'stop', record, deskAndMedical);
      if (answer === 'unsure') raise('lamp-unsure', 'attention', record, deskAndMedical);
      if (answer === null) raise('lamp-unanswered', 'attention', record, deskAndMedical);
    }
    if (record.kind === 'animal-left') leftOpen(record);
  }
  for (const run of animal.runs) {
    const start = standing.find((record) => record.id === run.startRecord);
    if (start === undefined || run.result !== 'running' || run.startedAt === null) continue;
    if (dayOfInstant(run.startedAt, ground.zone) < today) raise('test-unread', 'attention', start, deskAndMedical);
  }

  /** Only the word of somebody who was of the medical team then counts for tests that are open and for what keeps it apart. */
  function leftOpen(record: LogRecord<'animal-left'>): void {
    const { word, on } = record.body;
    if (word !== null && roleAt(ground, word, record.recordedAt) === 'medical') return;
    const apart = seenThatKeepsApart(animal, ground, on);
    const open = [
      ...testsStanding(animal, ground, on < today ? on : today).map(({ why }) => why),
      ...apart.map(keptSaid),
    ];
    if (open.length === 0) return;
    const whose =
      word === null ? said('flag.left-open.nobody') : said('flag.left-open.other', { person: { person: word } });
    raise('left-open', 'stop', record, deskAndMedical, { whose, what: { list: open } });
  }
}

/** A finding that keeps an animal apart as it was flagged, and the record by which it no longer stands. */
export interface TakenBack {
  readonly is: 'reading' | 'glow';
  readonly flag: Raised;
  readonly taker: LogRecord;
  readonly key: string;
}

/** A room in which animals share the air and the hands: cleaner than quarantine. */
export const isShared = (section: Section | null): boolean =>
  section !== null && rankOrder(section.rank) < rankOrder('quarantine');

/** Animals moved to a shared room while a reactive test or the lamp kept them out of it. */
export function movedFlags(
  animal: Animal,
  records: readonly LogRecord[],
  ground: Ground,
  answers: Shelter['answers'],
  taken: readonly TakenBack[],
): Raised[] {
  const standing = effective(records);
  const moves = moved(standing);
  if (moves.length === 0 || (taken.length === 0 && !mayBeApart(animal))) return [];
  return moves.flatMap((record): Raised[] => {
    const to = sectionOf(ground, record.body.section);
    if (to === null || !isShared(to) || !apartAt(answers, animal, taken, standing, record)) return [];
    return [
      {
        key: `moved-while-apart:${record.id}`,
        code: 'moved-while-apart',
        severity: 'stop',
        animal: animal.id,
        about: record.id,
        raisedAt: record.happenedAt,
        for: deskAndMedical,
        why: said('flag.moved-while-apart', { animal: animal.name, section: to.name }),
        by: record.by,
        ...writerOf(record),
      },
    ];
  });
}

const moved = ofKinds('animal-moved');

const mayBeApart = ({ runs, observations }: Animal): boolean =>
  runs.some((run) => run.result === 'reactive' || hasUncountedMark(run)) || hasFinding(observations);

const hasFinding = derived((observations: Animal['observations']): boolean =>
  observations.some(({ answer }) => isFinding(answer)),
);

/** A result that says the animal need not be kept apart; where one that is confirmed lives is the medical team's to say. */
const releases = (one: FollowUp): boolean =>
  settles(one) && one.says.is === 'result' && one.says.outcome !== 'confirmed';

const isFinding = (answer: string | null | undefined): boolean => answer === 'glow' || answer === 'unsure';

/** Something kept the animal apart when it was moved: a test without a result, or a flag without the medical team's answer. */
function apartAt(
  answers: Shelter['answers'],
  animal: Animal,
  taken: readonly TakenBack[],
  standing: readonly LogRecord[],
  move: LogRecord,
): boolean {
  const before = (at: string | null | undefined): boolean => at != null && at <= move.happenedAt;
  const settled = (key: string): boolean => before(answers.get(key)?.settled?.at);
  const lamp = standing.some(
    (record) =>
      record.kind === 'observation-noted' &&
      isFinding(record.body.answer) &&
      before(record.happenedAt) &&
      !settled(`lamp-${record.body.answer}:${record.id}`),
  );
  if (lamp || taken.some(({ flag, key }) => before(flag.raisedAt) && !settled(key))) return true;
  return animal.runs.some((run) => {
    if (run.result === 'reactive' && !before(run.readAt)) return false;
    if (run.result === 'reactive')
      return !animal.followUps.some(
        (one) => one.schedule === run.schedule && before(one.at) && one.at >= (run.readAt ?? '') && releases(one),
      );
    return uncountedMarks(run).some(
      (mark) =>
        before(mark.at) && !before(laterWord(animal, run, mark)?.at) && !settled(`mark-not-counted:${mark.record}`),
    );
  });
}
