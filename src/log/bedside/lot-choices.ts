import type { CalendarDate } from '../../core/calendar.js';
import { pastAt } from '../stock/keeps.js';
import { lotUse } from '../stock/lots.js';
import type { Lot } from '../views/shelter.js';
import type { World } from '../views/world.js';

/** A lot that could be in the hand, with what is wrong with it. */
export interface LotChoice {
  readonly lot: Lot;
  /** By the count; may be 0 or less although the vial is in the hand: a dose given is recorded all the same. */
  readonly left: number;
  readonly fault: 'expired' | 'withdrawn' | 'none-left' | null;
}

const rank = (choice: LotChoice): number => (choice.fault === null ? 0 : choice.fault === 'none-left' ? 1 : 2);

/**
 * Lots of something, the ones to take first: usable before empty before expired or withdrawn, and first-expiring first.
 * Nothing is left out, because what was really used has to be recorded; the day of expiry itself is still good, but for
 * syringes made ready here, which keep to an hour: `now` tells it.
 */
export function lotChoices(
  world: World,
  wanted: (of: Lot['of']) => boolean,
  today: CalendarDate,
  now: string | null = null,
): LotChoice[] {
  const use = lotUse(world);
  return [...world.shelter.lots.values()]
    .filter((lot) => wanted(lot.of))
    .map((lot): LotChoice => {
      const left = use.get(lot.id)?.left ?? lot.pieces;
      const past = now !== null && pastAt(lot, now, world.shelter.zone);
      const expired = past || (lot.expires !== null && lot.expires < today);
      const fault = lot.withdrawn !== null ? 'withdrawn' : expired ? 'expired' : left <= 0 ? 'none-left' : null;
      return { lot, left, fault };
    })
    .sort((a, b) => rank(a) - rank(b) || ((a.lot.expires ?? '9999') < (b.lot.expires ?? '9999') ? -1 : 1));
}
