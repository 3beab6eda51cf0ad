import { dayOfInstant } from '../../core/calendar.js';
import { RoundId } from '../../core/ids.js';
import type { InParts } from '../../core/in-parts.js';
import { aheadOfDesk, aheadOfRound } from '../../log/ahead.js';
import type { World } from '../../log/views/world.js';
import { now } from '../clock.js';

const onRound = /^\/round\/([\w-]+)/;

/** What the page that this address opens will ask of the world. */
export function* aheadOfFirstPage(world: World): InParts<void> {
  const today = dayOfInstant(now(), world.shelter.zone);
  const round = RoundId.safeParse(onRound.exec(location.pathname)?.[1] ?? '');
  if (round.success) yield* aheadOfRound(world, round.data, today);
  else if (location.pathname === '/') yield* aheadOfDesk(world, today);
}
