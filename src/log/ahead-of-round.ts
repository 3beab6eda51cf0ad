import type { CalendarDate } from '../core/calendar.js';
import type { RoundId } from '../core/ids.js';
import type { InParts } from '../core/in-parts.js';
import { sumsIn } from './rows/sums-in.js';
import { roundView } from './views/round/round.js';
import { dueIn, type World } from './views/world.js';

/**
 * What every page of a round asks about its animals, asked ahead of it and in parts: the answers are remembered where they
 * are worked out (core/derived.ts), so that the page only reads them. A round that is not known is asked for nothing.
 */
export function* aheadOfRound(world: World, round: RoundId, today: CalendarDate): InParts<void> {
  const view = yield* roundView.inParts(world, round);
  if (view === null) return;
  for (const { animal } of view.stops.flatMap(({ animals }) => animals)) {
    yield;
    dueIn(world, animal, today);
  }
  yield* sumsIn.inParts(world);
}
