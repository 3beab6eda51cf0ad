import type { CalendarDate } from '../core/calendar.js';
import type { RoundId } from '../core/ids.js';
import type { InParts } from '../core/in-parts.js';
import { flagsIn, ownedFlags } from './flags/flags.js';
import { sumsIn } from './rows/sums-in.js';
import { roundView } from './views/round/round.js';
import { dueIn, type World } from './views/world.js';

/*
 * What the first pages ask about every animal, asked ahead of them and in parts: the answers are remembered where they
 * are worked out (core/derived.ts), so that the page only reads them. Nothing is decided here; a page that asks for more
 * gets the same answers, only later.
 */

/** What every page of a round asks. A round that is not known is asked for nothing. */
export function* aheadOfRound(world: World, round: RoundId, today: CalendarDate): InParts<void> {
  const view = yield* roundView.inParts(world, round);
  for (const { animal } of view?.stops.flatMap(({ animals }) => animals) ?? []) {
    yield;
    dueIn(world, animal, today);
  }
  yield* sumsIn.inParts(world);
}

/** What the desk's first page asks: what is due, the flags, and the rounds that are not over. */
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
