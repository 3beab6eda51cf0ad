import { dayOfInstant } from '../core/calendar.js';
import { AnimalId, RoundId } from '../core/ids.js';
import type { InParts } from '../core/in-parts.js';
import type { World } from '../log/views/world.js';
import { now } from './clock.js';

const onRound = /^\/round\/([\w-]+)(?:\/animal\/([\w-]+))?/;

const todayIn = (world: World) => dayOfInstant(now(), world.shelter.zone);

/**
 * What the page at this address will ask of the world. It comes with the page's own part of the program, which is fetched
 * on the way while the records are read.
 */
export async function aheadOfFirstPage(): Promise<(world: World) => InParts<void>> {
  const [, ofRound, ofAnimal] = onRound.exec(location.pathname) ?? [];
  const round = RoundId.safeParse(ofRound);
  const animal = AnimalId.safeParse(ofAnimal);
  if (round.success && animal.success) {
    const { aheadOfAnimal } = await import('../log/ahead-of-animal.js');
    return (world) => aheadOfAnimal(world, round.data, animal.data, todayIn(world));
  }
  if (round.success) {
    const { aheadOfRound } = await import('./phone/opening.js');
    return (world) => aheadOfRound(world, round.data, todayIn(world));
  }
  const { aheadOfDesk } = await import('./desk/opening.js');
  return location.pathname === '/' ? (world) => aheadOfDesk(world, todayIn(world)) : nothing;
}

function* nothing(): InParts<void> {}
