import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { animalFlags } from './animal-flags.js';
import { type Flag, type Raised, withAnswer } from './flag.js';
import type { Shelter } from './shelter.js';
import { shelterFlags } from './shelter-flags.js';
import type { World } from './world.js';

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

const weight = (flag: Flag): number => (flag.state === 'answered' ? 2 : 0) + (flag.severity === 'stop' ? 0 : 1);

function byUrgency(a: Flag, b: Flag): number {
  return weight(a) - weight(b) || (a.raisedAt > b.raisedAt ? -1 : a.raisedAt < b.raisedAt ? 1 : a.key < b.key ? -1 : 1);
}

const flagged = new WeakMap<World, Map<string, readonly Flag[]>>();

/** All flags as of a day, stops first, newest first; the answered ones too. */
export function flagsIn(world: World, today: CalendarDate): readonly Flag[] {
  const byDay = flagged.get(world) ?? new Map<string, readonly Flag[]>();
  flagged.set(world, byDay);
  const before = byDay.get(today);
  if (before !== undefined) return before;
  const flags = flagsOf(world, today);
  byDay.set(today, flags);
  return flags;
}
