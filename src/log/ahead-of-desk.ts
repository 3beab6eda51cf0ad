import type { CalendarDate } from '../core/calendar.js';
import type { InParts } from '../core/in-parts.js';
import { flagsIn, ownedFlags } from './flags/flags.js';
import { roundView } from './views/round/round.js';
import { dueIn, type World } from './views/world.js';

/** What the desk's first page asks, asked ahead of it and in parts: what is due, the flags, the rounds that are not over. */
export function* aheadOfDesk(world: World, today: CalendarDate): InParts<void> {
  for (const animal of world.animals.values()) {
    if (animal.left !== null) continue;
    yield;
    dueIn(world, animal, today);
  }
  yield* ownedFlags.inParts(world, today);
  yield;
  flagsIn(world, today);
  for (const { id, begunAt, accepted, plan } of world.shelter.rounds.values()) {
    if (plan.on === today || (begunAt !== null && accepted === null)) yield* roundView.inParts(world, id);
  }
}
