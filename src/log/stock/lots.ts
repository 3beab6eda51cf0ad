import { derived } from '../../core/derived.js';
import type { LotId } from '../../core/ids.js';
import { nothingAway, type UsedAway } from '../away.js';
import { type LotSum, leftOf, noUse } from '../rows/lot-sum.js';
import { sumsIn } from '../rows/sums-in.js';
import type { World } from '../views/world.js';

/** What has been taken from a lot since it was last counted. `left` may be negative: a mismatch is shown, not hidden. */
export type LotUse = LotSum & { readonly left: number };

/**
 * Use of every lot, from the records of all animals. Pieces are doses, tests, chips or syringes. Counted is what a record
 * says came out of that lot, and nothing else: a use whose lot nobody wrote down is taken from none.
 */
export const lotUse = derived((world: World): ReadonlyMap<LotId, LotUse> => {
  const { lots } = sumsIn(world);
  return new Map(
    [...world.shelter.lots].map(([id, lot]) => {
      const sum = lots.get(id) ?? noUse;
      return [id, { ...sum, used: sum.used + lot.madeReady, left: leftOf(lot, sum) }];
    }),
  );
});

/** What animals that are not here took from lots, by what is `left` of each where all animals are known. */
export function usedAway(world: World, known: Iterable<{ readonly lot: LotId; readonly left: number }>): UsedAway {
  const here = lotUse({ ...world, away: nothingAway });
  const away = new Map<LotId, { readonly countedAt: string; readonly pieces: number }>();
  for (const { lot: id, left } of known) {
    const lot = world.shelter.lots.get(id);
    const pieces = (here.get(id)?.left ?? left) - left;
    if (lot !== undefined && pieces !== 0) away.set(id, { countedAt: lot.countedAt, pieces });
  }
  return away;
}
