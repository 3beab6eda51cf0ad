import { ageDays } from '../core/calendar.js';
import { dueIn, inCare } from '../log/views/world.js';
import { instantOf, seconds } from './instant.js';
import { animalId, dayBack, hand, type Scene, timeOn } from './scene.js';
import { weighAt } from './weigh.js';

/** Until this age the carer weighs between the rounds, when the protocol asks for it. */
const weighedUntilDays = 56;

/** Left out by the carer: one in the last days, so that its weight is too old to dose on today. */
const forgotten = [
  { key: 'serin', from: 15, to: 15 },
  { key: 'twite', from: 3, to: 1 },
] as const;

/** The carer's morning: every young kitten that is due to be weighed, before it is fed. */
export function weighYoung(scene: Scene, daysAgo: number): void {
  const on = dayBack(scene, daysAgo);
  const world = scene.journal.world();
  const now = forgotten.filter(({ from, to }) => daysAgo <= from && daysAgo >= to);
  const leftOut = new Set(now.map(({ key }) => animalId(scene, key)));
  let at = timeOn(scene, daysAgo, '06:50');
  for (const animal of inCare(world)) {
    if (ageDays(animal.born.latest, on) >= weighedUntilDays) continue;
    if (leftOut.has(animal.id)) continue;
    const item = dueIn(world, animal, on).find((one) => one.action === 'weigh');
    if (item?.status !== 'due' && item?.status !== 'overdue') continue;
    at += seconds(75);
    weighAt(scene, hand(scene, 'greta', 'carer'), animal.id, daysAgo, instantOf(at));
  }
}
