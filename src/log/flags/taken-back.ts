import type { CalendarDate } from '../../core/calendar.js';
import { derived } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { type Said, said } from '../../core/said.js';
import { type Around, type Raised, writerOf } from '../flag.js';
import type { LogRecord } from '../record.js';
import { foldAnimal } from '../views/animal.js';
import { ownerFlags } from '../views/chips/chip-owner.js';
import { isMedical } from '../views/documents/ground-on.js';
import type { Ground } from '../views/ground.js';
import { correctionsIn } from '../views/parts.js';
import { sectionOf } from '../views/shelter.js';
import { animalFlags } from './animal-flags.js';
import { differingReadings } from './blood-tests/readings-differ.js';
import { unknownReadings } from './blood-tests/unknown-readings.js';
import { movedFlags, type TakenBack } from './blood-tests/unsettled-flags.js';
import { findingOf, type Silenced, saysNothing, silencedIn } from './silenced.js';

/** What the records of one animal raised by themselves, and what ended it. */
const silencedOf = derived(
  (records: readonly LogRecord[], ground: Ground, id: AnimalId, today: CalendarDate): readonly Silenced[] =>
    silencedIn(records, (some) => {
      const animal = foldAnimal(id, some, ground);
      return animal === null
        ? unknownReadings(some, ground, id)
        : [...animalFlags(animal, some, ground, today), ...differingReadings(animal, some, ground)];
    }),
);

/** Findings that keep an animal apart and that were taken back by somebody who is not of the medical team. */
export function takenBackOf(
  id: AnimalId,
  records: readonly LogRecord[],
  ground: Ground,
  today: CalendarDate,
): TakenBack[] {
  return silencedOf(records, ground, id, today).flatMap(({ flag, taker }): TakenBack[] => {
    const is = findingOf(flag);
    if (is === null || isMedical(ground, taker)) return [];
    return [{ is, flag, taker, key: `${is}-taken-back:${taker.id}` }];
  });
}

/**
 * Flags whose records were corrected, withdrawn or given up: every stop, and every other one that somebody has taken. Each
 * stays under its own key until the role it is for has answered. What one person puts right alone, before anybody else
 * has recorded anything about the animal, needs attention only.
 */
export function takenBackFlags(id: AnimalId, records: readonly LogRecord[], around: Around): Raised[] {
  const { ground, answers, today } = around;
  const silenced = [...silencedOf(records, ground, id, today), ...silencedAmongOthers(id, records, around)];
  const findings = takenBackOf(id, records, ground, today).map((one) => findingFlag(one));
  const others = silenced.flatMap(({ flag, taker, ownSlip }): Raised[] => {
    if (findingOf(flag) !== null) return [];
    if (saysNothing(flag)) return madeToCount(ground, flag, taker, ownSlip);
    const isTaken = answers.get(flag.key)?.taken != null;
    if (flag.severity !== 'stop' && !isTaken) return [];
    const { followUp: _, ...rest } = flag;
    return [
      {
        ...rest,
        severity: ownSlip && !isTaken ? 'attention' : flag.severity,
        why: said('flag.taken-back', { was: flag.why, ...takerSaid(taker), change: changeOf(ground, taker) }),
        ...(flag.for.includes('supervisor') ? {} : { closedBy: 'medical' }),
      },
    ];
  });
  return [...findings, ...others];

  function findingFlag({ is, flag, taker, key }: TakenBack): Raised {
    return {
      key,
      code: `${is}-taken-back`,
      severity: 'stop',
      animal: id,
      about: flag.about,
      raisedAt: taker.recordedAt,
      for: ['medical', 'supervisor'],
      why: said(`flag.${is}-taken-back`, {
        animal: flag.why.with?.['animal'] ?? id,
        person: { person: taker.by },
        on: { instant: flag.raisedAt },
      }),
      by: taker.by,
      ...writerOf(taker),
      closedBy: 'medical',
    };
  }
}

/**
 * A test that said nothing, and was made to say something by what was recorded of it afterwards: for the medical team, unless
 * it did so itself or the test is to be repeated all the same.
 */
function madeToCount(ground: Ground, flag: Raised, taker: LogRecord, ownSlip: boolean): Raised[] {
  if (taker.kind === 'test-abandoned' || isMedical(ground, taker)) return [];
  return [
    {
      ...flag,
      key: `test-made-to-count:${taker.id}`,
      code: 'test-made-to-count',
      severity: ownSlip ? 'attention' : 'stop',
      raisedAt: taker.recordedAt,
      for: ['medical', 'supervisor'],
      why: said('flag.test-made-to-count', { was: flag.why, ...takerSaid(taker) }),
      by: taker.by,
      ...writerOf(taker),
      closedBy: 'medical',
    },
  ];
}

/** Flags that depend on more than the animal's own records: asked about only where a record of such a kind was corrected. */
function silencedAmongOthers(
  id: AnimalId,
  records: readonly LogRecord[],
  { ground, answers, today, isOnAnother }: Around,
): Silenced[] {
  if (correctionsIn(records).length === 0) return [];
  const corrected = new Set(records.flatMap(({ corrects }) => corrects ?? []));
  const isCorrected = (kind: LogRecord['kind']): boolean =>
    records.some((one) => one.kind === kind && corrected.has(one.id));
  const moved = isCorrected('animal-moved');
  if (!moved && !isCorrected('chip-scanned')) return [];
  return silencedIn(records, (some) => {
    const animal = foldAnimal(id, some, ground);
    if (animal === null) return [];
    const taken = moved ? takenBackOf(id, some, ground, today) : [];
    return [
      ...(moved ? movedFlags(animal, some, ground, answers, taken) : []),
      ...ownerFlags(animal, some, { lots: ground.lots, isOnAnother }),
    ];
  });
}

const takerSaid = (taker: LogRecord) => ({
  person: { person: taker.by },
  on: { instant: taker.recordedAt },
});

/** What the record that ended a flag says instead. */
function changeOf(ground: Ground, taker: LogRecord): Said {
  switch (taker.kind) {
    case 'record-withdrawn':
      return said('flag.taken-back.withdrawn', { reason: taker.body.reason });
    case 'test-abandoned':
      return said('flag.taken-back.given-up');
    case 'treatment-given': {
      const { volume_ul, pieces } = taker.body;
      const amount = volume_ul === null ? pieces : { microlitres: volume_ul };
      return said('flag.taken-back.given', { amount, at: { instant: taker.happenedAt } });
    }
    case 'animal-weighed':
      return said('flag.taken-back.weighed', { weight: { grams: taker.body.grams } });
    case 'animal-moved':
      return said('flag.taken-back.moved', {
        section: sectionOf(ground, taker.body.section)?.name ?? taker.body.section ?? '',
      });
    case 'chip-implanted':
      return said('flag.taken-back.chip', { chip: taker.body.code });
    case 'chip-scanned':
      return taker.body.found === null
        ? said('flag.taken-back.no-chip')
        : said(taker.body.ofAnother ? 'flag.taken-back.of-another' : 'flag.taken-back.chip', {
            chip: taker.body.found.code,
          });
    default:
      return said('flag.taken-back.other');
  }
}
