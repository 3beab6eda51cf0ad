import type { AnimalId, RoundId } from '../../../core/ids.js';
import { foldAnimal } from '../animal.js';
import { roundOf } from '../round.js';
import type { World } from '../world.js';

/**
 * One animal as it stood when the sheet of a round was printed: without what has been recorded of it on that round.
 * What was weighed on the day must not change the amount that stands on the paper.
 */
export function asPrinted(world: World, animal: AnimalId, round: RoundId): World {
  const subject = `animal:${animal}`;
  const records = (world.bySubject.get(subject) ?? []).filter((record) => roundOf(record) !== round);
  const before = foldAnimal(animal, records, world.ground);
  if (before === null) return world;
  return {
    ...world,
    animals: new Map(world.animals).set(animal, before),
    bySubject: new Map(world.bySubject).set(subject, records),
  };
}
