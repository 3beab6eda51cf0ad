import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { derived } from '../../core/derived.js';
import { AnimalId, type RecordId } from '../../core/ids.js';
import { atOnce, type InParts, withRests } from '../../core/in-parts.js';
import type { DueItem } from '../../core/protocol/due.js';
import { nothingAway, type UsedAway } from '../away.js';
import { type ChipIndex, noChips } from '../chip-index.js';
import { isAnimalRecord, type LogRecord, subjectOf } from '../record.js';
import { settled } from '../settled-time.js';
import type { UnreadRecord } from '../unread.js';
import { foldAnimal } from './animal.js';
import { dueOf } from './due/due.js';
import { type Ground, groundOf } from './ground.js';
import { noIds, type RecordIds, withIds, withoutIds } from './record-ids.js';
import { foldShelter, noShelter, type Shelter } from './shelter.js';

/**
 * All that a device or a test holds: the records and what they add up to. A value: `applyToWorld` returns a new one
 * that shares what did not change. Due items and flags are worked out when asked for and remembered (core/derived.ts).
 */
export interface World {
  readonly shelter: Shelter;
  /** What of it every animal is judged by. */
  readonly ground: Ground;
  readonly animals: ReadonlyMap<AnimalId, Animal>;
  /** Records by subject, in order of arrival. */
  readonly bySubject: ReadonlyMap<string, readonly LogRecord[]>;
  readonly ids: RecordIds;
  /** Subjects of animals that have records but were never taken in. */
  readonly unknown: ReadonlySet<AnimalId>;
  /** Records of the log that cannot be read: what they said is missing everywhere here. */
  readonly unread: readonly UnreadRecord[];
  /** Every chip number ever recorded, where not all animals are here; what is here counts over it. */
  readonly chips: ChipIndex;
  /** What animals that are not here have taken from lots. */
  readonly away: UsedAway;
}

export const emptyWorld: World = {
  shelter: noShelter,
  ground: groundOf(noShelter, null),
  animals: new Map(),
  bySubject: new Map(),
  ids: noIds,
  unknown: new Set(),
  unread: [],
  chips: noChips,
  away: nothingAway,
};

/** A world from nothing; in parts with a rest after every few records and before every animal. */
export const buildWorld = withRests((records: readonly LogRecord[], unread?: readonly UnreadRecord[]) =>
  applied(emptyWorld, records, unread),
);

/**
 * Add records. One that is there already is taken again only when it now carries its place in the log.
 * `unread` are all records that cannot be read, when that has changed. When anything changes that animals are judged by (lots, documents, sections, zone), every animal is folded again.
 */
export const applyToWorld = (world: World, records: readonly LogRecord[], unread?: readonly UnreadRecord[]): World =>
  atOnce(applied(world, records, unread));

/** Records that are sorted in before the next rest. */
const sortedAtOnce = 100;

function* applied(
  world: World,
  records: readonly LogRecord[],
  unread: readonly UnreadRecord[] = world.unread,
): InParts<World> {
  const bySubject = new Map(world.bySubject);
  const added = new Set<RecordId>();
  const touched = new Set<string>();
  let shelterTouched = unread !== world.unread && !sameDocuments(unread, world.unread);
  for (const [n, written] of records.entries()) {
    if (n % sortedAtOnce === sortedAtOnce - 1) yield;
    const record = settled(written);
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

  yield;
  const shelter = shelterTouched ? foldShelter(shelterRecords(bySubject), unread) : world.shelter;
  const ground = shelterTouched ? groundOf(shelter, world.ground) : world.ground;
  const refold = ground !== world.ground;
  const animals = refold ? new Map<AnimalId, Animal>() : new Map(world.animals);
  const unknown = new Set(refold ? [] : world.unknown);
  const subjects = refold ? [...bySubject.keys()].filter((subject) => subject.startsWith('animal:')) : touched;
  for (const subject of subjects) {
    yield;
    const id = AnimalId.parse(subjectOf({ subject }).id);
    const animal = foldAnimal(id, bySubject.get(subject) ?? [], ground);
    if (animal === null) unknown.add(id);
    else {
      animals.set(id, animal);
      unknown.delete(id);
    }
  }
  const { chips, away } = world;
  return { shelter, ground, animals, bySubject, ids: withIds(world.ids, added), unknown, unread, chips, away };
}

/** Without some animals and all their records: a device lets go of those that left. */
export function withoutAnimals(world: World, gone: readonly AnimalId[]): World {
  const bySubject = new Map(world.bySubject);
  const animals = new Map(world.animals);
  const unknown = new Set(world.unknown);
  const ids = new Set<RecordId>();
  for (const animal of gone) {
    for (const { id } of bySubject.get(`animal:${animal}`) ?? []) ids.add(id);
    bySubject.delete(`animal:${animal}`);
    animals.delete(animal);
    unknown.delete(animal);
  }
  return ids.size === 0 ? world : { ...world, bySubject, animals, unknown, ids: withoutIds(world.ids, ids) };
}

/** Of unread records only those about documents change what the shelter is. */
function sameDocuments(one: readonly UnreadRecord[], other: readonly UnreadRecord[]): boolean {
  const told = (list: readonly UnreadRecord[]): string =>
    JSON.stringify(list.filter(({ subject }) => subject.startsWith('document:')));
  return told(one) === told(other);
}

function shelterRecords(bySubject: ReadonlyMap<string, readonly LogRecord[]>): LogRecord[] {
  const records: LogRecord[] = [];
  for (const [subject, own] of bySubject) if (!subject.startsWith('animal:')) records.push(...own);
  return records;
}

const due = derived(dueOf);

/** Everything the signed protocol and the orders have to say about one animal on one day. */
export const dueIn = (world: World, animal: Animal, today: CalendarDate): readonly DueItem[] =>
  due(animal, world.ground, today);

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
