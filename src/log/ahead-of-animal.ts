import type { CalendarDate } from '../core/calendar.js';
import type { AnimalId, RoundId } from '../core/ids.js';
import type { InParts } from '../core/in-parts.js';
import { aheadOfRound } from './ahead-of-round.js';
import { aheadOfFlags } from './flags/flags.js';
import type { World } from './views/world.js';

/** What the page of one animal on a round asks besides, ahead of it and in parts: the flags that keep it apart. */
export function* aheadOfAnimal(world: World, round: RoundId, animal: AnimalId, today: CalendarDate): InParts<void> {
  yield* aheadOfRound(world, round, today);
  yield* aheadOfFlags(world, animal, today);
}
