import type { Animal, BirthInterval } from '../../core/animal/animal.js';
import { derived } from '../../core/derived.js';
import { said } from '../../core/said.js';
import { type Raised, writerOf } from '../flag.js';
import type { LogRecord } from '../record.js';
import { bornBy } from '../views/animal.js';
import { isMedical } from '../views/documents/ground-on.js';
import { byOneHand, inOrderOfSaying, writtenOn } from '../views/effective.js';
import type { Ground } from '../views/ground.js';
import { withCorrections } from '../views/parts.js';

/** That a record gave an animal other days of birth than it had, and which record had given those. */
interface BornChange {
  readonly from: BirthInterval;
  readonly to: BirthInterval;
  readonly giver: LogRecord;
  readonly taker: LogRecord;
}

/**
 * Days of birth that somebody who is not of the medical team changed, by a description, a correction or a withdrawal,
 * each told once, also when it was taken back. It is a stop that only the medical team closes, unless the new days lie
 * among the old ones, or whoever gave those puts them right that day before anybody else recorded anything.
 */
export function bornFlags(animal: Animal, records: readonly LogRecord[], ground: Ground): Raised[] {
  const changes = changesOf(describing(records));
  if (changes.length === 0) return [];
  const order = inOrderOfSaying(records);
  const isOwnSlip = ({ giver, taker }: BornChange): boolean =>
    writtenOn(giver) === writtenOn(taker) && byOneHand(order.slice(order.indexOf(giver), order.indexOf(taker) + 1));
  // One's own slips are passed over, to what another had said before them; the taking in has nothing before it.
  const isHarmless = (at: number, to: BirthInterval): boolean => {
    const change = changes[at];
    return change === undefined || liesIn(to, change.from) || (isOwnSlip(change) && isHarmless(at - 1, to));
  };
  return changes.flatMap(({ from, to, taker }, at): Raised[] => {
    if (isMedical(ground, taker)) return [];
    const isStop = !isHarmless(at, to);
    const values = { animal: animal.name, person: { person: taker.by }, from: bornSaid(from), to: bornSaid(to) };
    const flag: Raised = {
      key: `born-changed:${taker.id}`,
      code: 'born-changed',
      severity: isStop ? 'stop' : 'attention',
      animal: animal.id,
      about: taker.id,
      raisedAt: taker.recordedAt,
      for: ['medical', 'supervisor'],
      why: isStop ? said('flag.born-changed', values) : said('flag.born-changed.narrower', values),
      by: taker.by,
      ...writerOf(taker),
      ...(isStop ? { closedBy: 'medical' as const } : {}),
    };
    return [flag];
  });
}

const describing = withCorrections('animal-taken-in', 'animal-described');

/** Every change in the order in which they were said, whatever was taken back since. */
const changesOf = derived((records: readonly LogRecord[]): readonly BornChange[] => {
  if (records.length < 2) return [];
  const order = inOrderOfSaying(records);
  const changes: BornChange[] = [];
  let before: { readonly born: BirthInterval; readonly giver: LogRecord } | null = null;
  for (const [index, taker] of order.entries()) {
    const born = bornBy(order.slice(0, index + 1));
    if (born === null || (before !== null && isSame(born, before.born))) continue;
    if (before !== null) changes.push({ from: before.born, to: born, giver: before.giver, taker });
    before = { born, giver: taker };
  }
  return changes;
});

/** Whether it is known counts with the days: of an animal of unknown age other things wait. */
const isSame = (a: BirthInterval, b: BirthInterval): boolean =>
  a.earliest === b.earliest && a.latest === b.latest && isUnknown(a) === isUnknown(b);

const isUnknown = ({ basis }: BirthInterval): boolean => basis === 'unknown';

const liesIn = (inner: BirthInterval, outer: BirthInterval): boolean =>
  inner.earliest >= outer.earliest && inner.latest <= outer.latest && (isUnknown(outer) || !isUnknown(inner));

function bornSaid(born: BirthInterval) {
  const { earliest, latest } = born;
  if (!isUnknown(born) && earliest === latest) return said('flag.born-changed.day', { day: { date: earliest } });
  const values = { first: { date: earliest }, last: { date: latest } };
  return isUnknown(born) ? said('flag.born-changed.unknown', values) : said('flag.born-changed.span', values);
}
