import type { AnimalId } from '../core/ids.js';
import { correct, weighAnimal } from '../log/commands/animal.js';
import type { LogRecord } from '../log/record.js';
import { scaleShows } from './growth.js';
import { type Ms, msOf, seconds } from './instant.js';
import { type Hand, theOne } from './journal.js';
import type { RoundInHand } from './round-in-hand.js';
import { animalNow, castOf, dayBack, realAge, type Scene } from './scene.js';
import { slipOf } from './slips.js';

/** The kitten that stops growing, and from which day before today on. */
const failing = { key: 'sanderling', fromDaysAgo: 2, grams: [0, -6, 2] } as const;

/** What the scale shows for an animal on a day. Animals out of a file keep the weight of the file. */
export function gramsOn(scene: Scene, animal: AnimalId, daysAgo: number): number {
  const one = castOf(scene, animal);
  const last = animalNow(scene, animal).weighings.at(-1)?.grams;
  if (one === null) return last ?? 3600;
  if (one.key === failing.key && daysAgo <= failing.fromDaysAgo && last !== undefined) {
    return last + (failing.grams[daysAgo] ?? 0);
  }
  return scaleShows(realAge(scene, one, dayBack(scene, daysAgo)), one, scene.chance);
}

/** Weigh on a round, with the slips of the script. */
export function weighOnRound(team: RoundInHand, animal: AnimalId): void {
  const { scene, daysAgo, hand, round } = team;
  const key = castOf(scene, animal)?.key ?? null;
  const at = team.pass(35, 70);
  const grams = gramsOn(scene, animal, daysAgo);
  const doubtful = slipOf(key, daysAgo, 'weight-doubtful');
  if (doubtful !== null) {
    const seen = Math.round((grams * doubtful.share) / 10) * 10;
    write(scene, hand, animal, seen, at, { doubtful: true, round });
    return;
  }
  if (slipOf(key, daysAgo, 'weight-typed-wrong') !== null) {
    const wrong = write(scene, hand, animal, grams * 10, at, { doubtful: false, round });
    const body = { grams, entered: `${grams} g`, round };
    scene.journal.write(hand, correct(wrong, 'animal-weighed', body), msOf(at) + seconds(30));
    return;
  }
  write(scene, hand, animal, grams, at, { doubtful: false, round });
}

/** A weighing outside a round, by a carer or at intake. */
export function weighAt(scene: Scene, hand: Hand, animal: AnimalId, daysAgo: number, at: string, writtenAt?: Ms): void {
  const grams = gramsOn(scene, animal, daysAgo);
  scene.journal.write(hand, weighAnimal(animal, { grams, entered: `${grams} g` }, at), writtenAt);
}

function write(
  scene: Scene,
  hand: Hand,
  animal: AnimalId,
  grams: number,
  at: string,
  more: { doubtful: boolean; round: RoundInHand['round'] },
): LogRecord {
  return theOne(scene.journal.write(hand, weighAnimal(animal, { grams, entered: `${grams} g`, ...more }, at)));
}
