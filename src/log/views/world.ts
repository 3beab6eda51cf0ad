import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { AnimalId, type RecordId } from '../../core/ids.js';
import type { DueItem } from '../../core/protocol/due.js';
import { isAnimalRecord, type LogRecord, subjectOf } from '../record.js';
import { foldAnimal } from './animal.js';
import { dueOf } from './due.js';
import { noIds, type RecordIds, withIds } from './record-ids.js';
import { foldShelter, noShelter, type Shelter } from './shelter.js';

/**
 * All that a device or a test holds: the records and what they add up to. A value: `applyToWorld` returns a new one
 * that shares what did not change. Due items and flags are worked out when asked for and remembered per day.
 */
export interface World {
  readonly shelter: Shelter;
  readonly animals: ReadonlyMap<AnimalId, Animal>;
  /** Records by subject, in order of arrival. */
  readonly bySubject: ReadonlyMap<string, readonly LogRecord[]>;
  readonly ids: RecordIds;
  /** Subjects of animals that have records but were never taken in. */
  readonly unknown: ReadonlySet<AnimalId>;
}

export const emptyWorld: World = {
  shelter: noShelter,
  animals: new Map(),
  bySubject: new Map(),
  ids: noIds,
  unknown: new Set(),
};

export const buildWorld = (records: readonly LogRecord[]): World => applyToWorld(emptyWorld, records);

/**
 * Add records. One that is there already is taken again only when it now carries its place in the log.
 * When anything about the shelter changes (lots, documents, zone), every animal is folded again.
 */
export function applyToWorld(world: World, records: readonly LogRecord[]): World {
  const bySubject = new Map(world.bySubject);
  const added = new Set<RecordId>();
  const touched = new Set<string>();
  let shelterTouched = false;
  for (const record of records) {
    const before = bySubject.get(record.subject) ?? [];
    if (world.ids.has(record.id) || added.has(record.id)) {
      bySubject.set(
        record.subject,
        before.map((one) => (one.id === record.id && record.seq !== undefined ? record : one)),
      );
    } else {
      bySubject.set(record.subject, [...before, record]);
      added.add(record.id);
    }
    if (isAnimalRecord(record)) touched.add(record.subject);
    else shelterTouched = true;
  }

  const shelter = shelterTouched ? foldShelter(shelterRecords(bySubject)) : world.shelter;
  const refold = shelterTouched && animalsDependOn(world.shelter, shelter);
  const animals = refold ? new Map<AnimalId, Animal>() : new Map(world.animals);
  const unknown = new Set(refold ? [] : world.unknown);
  const subjects = refold ? [...bySubject.keys()].filter((subject) => subject.startsWith('animal:')) : touched;
  for (const subject of subjects) {
    const id = AnimalId.parse(subjectOf({ subject }).id);
    const animal = foldAnimal(id, bySubject.get(subject) ?? [], shelter);
    if (animal === null) unknown.add(id);
    else {
      animals.set(id, animal);
      unknown.delete(id);
    }
  }
  return { shelter, animals, bySubject, ids: withIds(world.ids, added), unknown };
}

function shelterRecords(bySubject: ReadonlyMap<string, readonly LogRecord[]>): LogRecord[] {
  const records: LogRecord[] = [];
  for (const [subject, own] of bySubject) if (!subject.startsWith('animal:')) records.push(...own);
  return records;
}

/** What of the shelter goes into the fold of an animal. */
function animalsDependOn(before: Shelter, after: Shelter): boolean {
  if (before.zone !== after.zone || before.formulary?.version !== after.formulary?.version) return true;
  if (before.formularies.length !== after.formularies.length || before.lots.size !== after.lots.size) return true;
  for (const [id, lot] of after.lots) {
    const old = before.lots.get(id);
    if (old?.expires !== lot.expires || old?.lotText !== lot.lotText || old?.withdrawn?.why !== lot.withdrawn?.why)
      return true;
  }
  return false;
}

interface Worked {
  readonly today: CalendarDate;
  readonly shelter: Shelter;
  readonly due: readonly DueItem[];
}
const worked = new WeakMap<Animal, Worked>();

/** Nothing of the shelter that due items come from has changed; the animal itself is another value when it has. */
const isSameForDue = (a: Shelter, b: Shelter): boolean =>
  a.protocol === b.protocol &&
  a.formulary === b.formulary &&
  sameEntries(a.variants, b.variants, (one, other) => one.variant === other.variant) &&
  (a.sections === b.sections ||
    (a.sections.length === b.sections.length &&
      a.sections.every(({ id, rank }, at) => b.sections[at]?.id === id && b.sections[at]?.rank === rank)));

function sameEntries<K, V>(a: ReadonlyMap<K, V>, b: ReadonlyMap<K, V>, same: (one: V, other: V) => boolean): boolean {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  for (const [key, value] of a) {
    const other = b.get(key);
    if (other === undefined || !same(value, other)) return false;
  }
  return true;
}

/** Everything the signed protocol and the orders have to say about one animal on one day. */
export function dueIn(world: World, animal: Animal, today: CalendarDate): readonly DueItem[] {
  const before = worked.get(animal);
  if (before !== undefined && before.today === today && isSameForDue(before.shelter, world.shelter)) return before.due;

  const due = dueOf(animal, world.shelter, today);
  worked.set(animal, { today, shelter: world.shelter, due });
  return due;
}

/** Animals that are here: taken in, not left. */
export const inCare = (world: World): Animal[] =>
  [...world.animals.values()].filter((animal) => animal.left === null).sort(byPlace(world.shelter));

/** By section from clean to sick, then kennel, then name: the order in which they are met. */
export function byPlace(shelter: Shelter): (a: Animal, b: Animal) => number {
  const order = new Map(shelter.sections.map((section, index) => [section.id as string, index]));
  const rank = (animal: Animal): number => order.get(animal.section ?? '') ?? shelter.sections.length;
  return (a, b) =>
    rank(a) - rank(b) ||
    a.kennel.localeCompare(b.kennel, 'en', { numeric: true }) ||
    (a.litter?.name ?? '').localeCompare(b.litter?.name ?? '', 'en', { numeric: true }) ||
    a.name.localeCompare(b.name, 'en', { numeric: true });
}
