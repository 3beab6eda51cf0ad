import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { derived, derivedInParts } from '../../core/derived.js';
import type { AnimalId, RoundId } from '../../core/ids.js';
import type { InParts } from '../../core/in-parts.js';
import { type Around, type Flag, type Raised, withAnswer } from '../flag.js';
import type { LogRecord } from '../record.js';
import { noUse } from '../rows/lot-sum.js';
import { noLines } from '../rows/sums.js';
import { factsIn, sumsIn } from '../rows/sums-in.js';
import { signLeft } from '../views/apart/sign.js';
import { carriedElsewhere, chipElsewhere, namedElsewhere } from '../views/chips/chip-elsewhere.js';
import { ownerFlags } from '../views/chips/chip-owner.js';
import type { Ground } from '../views/ground.js';
import type { Shelter } from '../views/shelter.js';
import type { World } from '../views/world.js';
import { animalFlags } from './animal-flags.js';
import { differingReadings } from './blood-tests/readings-differ.js';
import { unknownReadings } from './blood-tests/unknown-readings.js';
import { movedFlags } from './blood-tests/unsettled-flags.js';
import { clockFast } from './clock-flags.js';
import { flagsOfNumber, flagsOfRun } from './shared-flags.js';
import { flagsOfChip, flagsOfDoses, flagsOfLot, flagsOfRound, flagsOfShelter, unknownAnimal } from './shelter-flags.js';
import { takenBackFlags, takenBackOf } from './taken-back.js';

/**
 * What flags are worked out from, and written anew with. The flags of one owner depend on its own records or row of the
 * shelter, on the ground, the day and the answers, and on what the animals' rows about it add up to.
 */
export const ownerOf = {
  animal: (id: string) => `animal:${id}`,
  lot: (id: string) => `lot:${id}`,
  round: (id: string) => `round:${id}`,
  /** Doses of a round that were not written down in full. */
  doses: (id: string) => `doses:${id}`,
  chip: (code: string) => `chip:${code}`,
  clock: ({ device, on }: { readonly device: string; readonly on: string }) => `clock:${on}:${device}`,
  /** A test under its name. */
  run: (run: string) => `run:${run}`,
  /** A number of the shelter, in the form in which two are the same. */
  number: (number: string) => `number:${number}`,
  shelter: 'shelter',
} as const;

/** A flag with what it was worked out from. */
export interface Owned {
  readonly owner: string;
  readonly flag: Flag;
}

/** What an animal's own records, and the protocol's reading of them, have to show. */
const own = derivedInParts(function* (
  animal: Animal,
  records: readonly LogRecord[],
  ground: Ground,
  today: CalendarDate,
): InParts<readonly Raised[]> {
  const flags = yield* animalFlags.inParts(animal, records, ground, today);
  yield;
  return [...flags, ...differingReadings(animal, records, ground)];
});

/**
 * Every flag of one animal. Of other animals it takes only which chips they have on record; null for one that was never
 * taken in.
 */
export function flagsOfAnimal(
  id: AnimalId,
  animal: Animal | null,
  records: readonly LogRecord[],
  around: Around,
): readonly Raised[] {
  const { ground, answers, today, isOnAnother } = around;
  const takenBack = takenBackFlags(id, records, around);
  if (animal === null) return [...unknownReadings(records, ground, id), ...takenBack, ...unknownAnimal(id, records)];
  const raised = [
    ...own(animal, records, ground, today),
    ...movedFlags(animal, records, ground, answers, takenBackOf(id, records, ground, today)),
    ...ownerFlags(animal, records, { lots: ground.lots, isOnAnother }),
    // Last, since of two with one key the last one counts: a stop that became less by a correction stays one.
    ...takenBack,
  ];
  if (animal.sign === null) return raised;
  const flags = raised.map((flag) => withAnswer(flag, answers.get(flag.key)));
  return [...raised, ...signLeft(animal, ground, flags)];
}

/** Flags with their answers. Of two with one key the last one counts. */
export function answered(owner: string, raised: readonly Raised[], answers: Shelter['answers']): Owned[] {
  const byKey = new Map(raised.map((flag) => [flag.key, flag]));
  return [...byKey.values()].map((flag) => ({ owner, flag: withAnswer(flag, answers.get(flag.key)) }));
}

/** Every flag of the shelter as of a day, each with its owner. */
export const ownedFlags = derivedInParts(function* (world: World, today: CalendarDate): InParts<readonly Owned[]> {
  const { shelter } = world;
  const sums = yield* sumsIn.inParts(world);
  const owned: Owned[] = [];
  const put = (owner: string, raised: readonly Raised[]): void => {
    owned.push(...answered(owner, raised, shelter.answers));
  };
  for (const id of [...world.animals.keys(), ...world.unknown]) {
    yield* aheadOfFlags(world, id, today);
    put(ownerOf.animal(id), raisedOf(world, id, today));
  }
  yield;
  for (const lot of shelter.lots.values()) {
    put(ownerOf.lot(lot.id), flagsOfLot(lot, sums.lots.get(lot.id) ?? noUse, today));
  }
  for (const round of shelter.rounds.values()) {
    put(ownerOf.round(round.id), flagsOfRound(round, shelter, today));
    put(ownerOf.doses(round.id), flagsOfDoses(round, sums.rounds.get(round.id as RoundId) ?? noLines));
  }
  for (const [code, carriers] of sums.carriers) {
    const gone = chipElsewhere(world, code).filter(({ is }) => is === 'carried');
    const elsewhere = gone.map(({ entry }) => ({ name: namedElsewhere(entry), since: '' }));
    put(ownerOf.chip(code), flagsOfChip(code, [...carriers, ...elsewhere]));
  }
  for (const row of sums.clocks.values()) put(ownerOf.clock(row), [clockFast(row)]);
  for (const [run, holders] of sums.runs) put(ownerOf.run(run), flagsOfRun(holders));
  for (const [number, holders] of sums.labels) put(ownerOf.number(number), flagsOfNumber(holders));
  put(ownerOf.shelter, flagsOfShelter(shelter));
  return owned;
});

/** Most of what the flags of one animal are worked out from, ahead of them and in parts. */
export function* aheadOfFlags({ animals, bySubject, ground }: World, id: AnimalId, today: CalendarDate): InParts<void> {
  yield;
  const animal = animals.get(id);
  const records = bySubject.get(`animal:${id}`);
  if (animal === undefined || records === undefined) return;
  yield* own.inParts(animal, records, ground, today);
  yield;
  takenBackOf(id, records, ground, today);
  yield;
}

function raisedOf(world: World, id: AnimalId, today: CalendarDate): readonly Raised[] {
  const { ground, shelter, animals, bySubject } = world;
  const { numbers } = sumsIn(world);
  return flagsOfAnimal(id, animals.get(id) ?? null, bySubject.get(`animal:${id}`) ?? [], {
    ground,
    answers: shelter.answers,
    today,
    isOnAnother: (number) =>
      carriedElsewhere(world, number) !== null || [...(numbers.get(number) ?? [])].some((other) => other !== id),
  });
}

const weight = (flag: Flag): number => (flag.state === 'answered' ? 2 : 0) + (flag.severity === 'stop' ? 0 : 1);

function byUrgency(a: Flag, b: Flag): number {
  return weight(a) - weight(b) || (a.raisedAt > b.raisedAt ? -1 : a.raisedAt < b.raisedAt ? 1 : a.key < b.key ? -1 : 1);
}

/** Every flag of the shelter as of a day, stops first, newest first; the answered ones too. */
export const flagsIn = derived((world: World, today: CalendarDate): readonly Flag[] =>
  ownedFlags(world, today)
    .map(({ flag }) => flag)
    .sort(byUrgency),
);

/** The flags of one animal, in the same order. */
export const flagsAbout = (world: World, id: AnimalId, today: CalendarDate): readonly Flag[] =>
  answered(ownerOf.animal(id), [...raisedOf(world, id, today), ...amongOthers(world, id)], world.shelter.answers)
    .map(({ flag }) => flag)
    .filter((flag) => flag.animal === id)
    .sort(byUrgency);

/** Flags on this animal for what it shares with others: the name of a test, its number. */
function amongOthers(world: World, id: AnimalId): readonly Raised[] {
  const { run_holders, number_holders } = factsIn(world, id);
  const { runs, labels } = sumsIn(world);
  return [
    ...run_holders.flatMap(({ run }) => flagsOfRun(runs.get(run) ?? [])),
    ...number_holders.flatMap(({ number }) => flagsOfNumber(labels.get(number) ?? [])),
  ];
}
