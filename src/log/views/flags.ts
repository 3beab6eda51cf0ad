import type { CalendarDate } from '../../core/calendar.js';
import { derived } from '../../core/derived.js';
import { animalFlags } from './animal-flags.js';
import { type Flag, type Raised, withAnswer } from './flag.js';
import { shelterFlags } from './shelter-flags.js';
import { signsLeft } from './sign.js';
import type { World } from './world.js';

/** Flags of one animal: of its fold, its records, the ground it is judged on and the day. */
const flagsOfAnimal = derived(animalFlags);

const weight = (flag: Flag): number => (flag.state === 'answered' ? 2 : 0) + (flag.severity === 'stop' ? 0 : 1);

function byUrgency(a: Flag, b: Flag): number {
  return weight(a) - weight(b) || (a.raisedAt > b.raisedAt ? -1 : a.raisedAt < b.raisedAt ? 1 : a.key < b.key ? -1 : 1);
}

/** Every flag of the shelter as of a day, stops first, newest first; the answered ones too. */
export const flagsIn = derived((world: World, today: CalendarDate): readonly Flag[] => {
  const raised: Raised[] = [];
  for (const animal of world.animals.values()) {
    const records = world.bySubject.get(`animal:${animal.id}`) ?? [];
    raised.push(...flagsOfAnimal(animal, records, world.ground, today));
  }
  raised.push(...shelterFlags(world, today));
  const flags = raised.map((flag) => withAnswer(flag, world.shelter.answers.get(flag.key)));
  return [...flags, ...signsLeft(world, flags)].sort(byUrgency);
});
