import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import type { AnimalId, PersonId, RecordId } from '../../core/ids.js';
import type { Role } from '../../core/people.js';
import type { Said } from '../../core/said.js';
import { animalFlags } from './animal-flags.js';
import type { FlagAnswer, Shelter } from './shelter.js';
import { shelterFlags } from './shelter-flags.js';
import type { World } from './world.js';

/**
 * Something for a person to look at. A flag refuses nothing: the fact stands, and stays flagged until somebody has
 * answered. Flags are worked out from the records; only taking and answering them is recorded.
 */
export interface Flag {
  /** Same for the same cause on every device: code and the record or thing it is about. */
  readonly key: string;
  readonly code: string;
  readonly severity: 'stop' | 'attention';
  readonly animal: AnimalId | null;
  readonly about: RecordId | null;
  readonly raisedAt: string;
  /** Who must see it. */
  readonly for: readonly Role[];
  readonly why: Said;
  readonly state: 'open' | 'taken' | 'answered';
  readonly answer: FlagAnswer | null;
  /** Person who made the record, if it is about one. */
  readonly by: PersonId | null;
}

/** A flag before anybody has looked at it. */
export type Raised = Omit<Flag, 'state' | 'answer'>;

/**
 * Every flag of the shelter as of a day, stops first, newest first; the answered ones too. Pure.
 */
export function flagsOf(world: World, today: CalendarDate): Flag[] {
  const raised: Raised[] = [];
  for (const animal of world.animals.values()) raised.push(...flagsOfAnimal(world, animal, today));
  raised.push(...shelterFlags(world, today));
  return raised.map((flag) => withAnswer(flag, world.shelter.answers.get(flag.key))).sort(byUrgency);
}

interface Remembered {
  readonly shelter: Shelter;
  readonly today: CalendarDate;
  readonly raised: readonly Raised[];
}
const remembered = new WeakMap<Animal, Remembered>();

/** Flags of one animal, remembered as long as neither it nor what it was judged by has changed. */
function flagsOfAnimal(world: World, animal: Animal, today: CalendarDate): readonly Raised[] {
  const before = remembered.get(animal);
  const same = before?.today === today && sameGround(before.shelter, world.shelter);
  if (before !== undefined && same) return before.raised;
  const records = world.bySubject.get(`animal:${animal.id}`) ?? [];
  const raised = animalFlags(animal, records, world.shelter, today);
  remembered.set(animal, { shelter: world.shelter, today, raised });
  return raised;
}

/** An animal is folded again when lots change, so the documents are all that is left to compare. */
const sameGround = (a: Shelter, b: Shelter): boolean => a.protocol === b.protocol && a.formulary === b.formulary;

export function withAnswer(flag: Raised, answer: FlagAnswer | undefined): Flag {
  const state = answer?.answered ? 'answered' : answer?.taken ? 'taken' : 'open';
  return { ...flag, state, answer: answer ?? null };
}

const weight = (flag: Flag): number => (flag.state === 'answered' ? 2 : 0) + (flag.severity === 'stop' ? 0 : 1);

function byUrgency(a: Flag, b: Flag): number {
  return weight(a) - weight(b) || (a.raisedAt > b.raisedAt ? -1 : a.raisedAt < b.raisedAt ? 1 : a.key < b.key ? -1 : 1);
}
