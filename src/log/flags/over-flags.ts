import type { Animal } from '../../core/animal/animal.js';
import { rankOrder } from '../../core/biosecurity/section.js';
import { derived, listOf } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { said } from '../../core/said.js';
import { deskAndMedical, type FlagCode, type Raised, writerOf } from '../flag.js';
import type { LogRecord } from '../record.js';
import { dayOf, foldAnimal } from '../views/animal.js';
import { groundOn, isMedical } from '../views/documents/ground-on.js';
import { dueOf } from '../views/due/due.js';
import { isSlipOfTheDay } from '../views/effective.js';
import type { Ground } from '../views/ground.js';
import { sectionOf } from '../views/shelter.js';
import { isShared } from './blood-tests/unsettled-flags.js';

type Noted = LogRecord<'observation-noted'>;

/** What others than the medical team ended for an animal by what they recorded, and nothing else tells of. */
export const overFlags = (
  animal: Animal,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
): Raised[] => [...seenNoMore(animal, records, standing, ground), ...leftQuarantine(animal, standing, ground)];

/**
 * Something that was seen, said to be over by somebody who is not of the medical team, with what waited for it and no
 * longer does. What kept the animal apart is a stop that only the medical team closes. What the medical team had seen
 * stands, and has a flag of its own (guard-flags.ts). One's own slip of the same day is not told.
 */
function seenNoMore(
  animal: Animal,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
): Raised[] {
  return standing.flatMap((over, at): Raised[] => {
    if (over.kind !== 'observation-noted' || over.body.state !== 'absent' || isMedical(ground, over)) return [];
    const seen = standing
      .slice(0, at)
      .findLast((one): one is Noted => one.kind === 'observation-noted' && one.body.code === over.body.code);
    if (seen === undefined || seen.body.state !== 'present' || isMedical(ground, seen)) return [];
    const { until, code } = seen.body;
    if (until !== null && until < over.body.on) return [];
    if (isSlipOfTheDay(seen, over)) return [];
    const apart = groundOn(ground, dayOf(over)).protocol?.keepApart.some((rule) => rule.code === code) ?? false;
    const freed = becameDue(animal, records, over, ground);
    if (!apart && freed.length === 0) return [];
    const values = {
      animal: animal.name,
      what: code,
      person: { person: over.by },
      noted: { person: seen.by },
      on: { instant: seen.happenedAt },
      due: { list: freed },
    };
    const flag = flagOf('seen-no-more', apart ? 'stop' : 'attention', animal, over);
    const why = said(freed.length > 0 ? 'flag.seen-no-more.due' : 'flag.seen-no-more', values);
    return [{ ...flag, why, ...(apart ? { closedBy: 'medical' as const } : {}) }];
  });
}

/** What waited until this was recorded, and waits no longer; by the engine of the due list. */
function becameDue(animal: Animal, records: readonly LogRecord[], over: Noted, ground: Ground): readonly string[] {
  const isKnown = ({ recordedAt, kind }: LogRecord): boolean => recordedAt <= over.recordedAt && kind !== 'animal-left';
  return freedBy(over, listOf(records.filter(isKnown)), ground, animal.id);
}

/** Out of all that was known with it: asked once, for what comes in afterwards changes nothing of it. */
const freedBy = derived((over: Noted, known: readonly LogRecord[], ground: Ground, id: AnimalId): readonly string[] => {
  const on = dayOf(over);
  const then = groundOn(ground, on);
  const dueWith = (own: readonly LogRecord[]) => {
    const folded = foldAnimal(id, own, then);
    return folded === null ? [] : dueOf(folded, then, on);
  };
  const after = dueWith(known);
  return dueWith(known.filter((one) => one.id !== over.id && one.corrects !== over.id)).flatMap((before) => {
    const now = after.find(({ schedule }) => schedule === before.schedule);
    return before.status === 'on-hold' && now !== undefined && now.status !== 'on-hold' ? [now.scheduleName] : [];
  });
});

/**
 * A move out of quarantine or isolation into a room that is shared, by somebody who is not of the medical team, where
 * nothing on record says why the animal had been there: nobody can tell that its time is over.
 */
function leftQuarantine(animal: Animal, standing: readonly LogRecord[], ground: Ground): Raised[] {
  return standing.flatMap((move, at): Raised[] => {
    if (move.kind !== 'animal-moved' || isMedical(ground, move)) return [];
    const earlier = standing.slice(0, at);
    const stay = earlier.findLast((one) => one.kind === 'animal-taken-in' || one.kind === 'animal-moved');
    const from = stay === undefined ? null : sectionOf(ground, stay.body.section);
    const to = sectionOf(ground, move.body.section);
    if (from === null || to === null || !isShared(to) || rankOrder(from.rank) < rankOrder('quarantine')) return [];
    if (earlier.some((one) => saysWhy(one, ground))) return [];
    const why = said('flag.left-quarantine', { animal: animal.name, from: from.name, to: to.name });
    return [{ ...flagOf('left-quarantine', 'attention', animal, move), why }];
  });
}

/** An exposure or a sign by the protocol, a look with the lamp, or a test that was read: what keeps an animal apart or frees it. */
const saysWhy = (record: LogRecord, ground: Ground): boolean =>
  record.kind === 'test-read' ||
  (record.kind === 'observation-noted' &&
    (record.body.answer !== null ||
      (groundOn(ground, dayOf(record)).protocol?.keepApart.some(({ code }) => code === record.body.code) ?? true)));

const flagOf = (
  code: FlagCode,
  severity: Raised['severity'],
  animal: Animal,
  record: LogRecord,
): Omit<Raised, 'why'> => ({
  key: `${code}:${record.id}`,
  code,
  severity,
  animal: animal.id,
  about: record.id,
  raisedAt: record.recordedAt,
  for: deskAndMedical,
  by: record.by,
  ...writerOf(record),
});
