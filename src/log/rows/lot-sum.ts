import type { Lot } from '../views/shelter.js';

/** What has been taken from a lot: since it was last counted, but for its tests, which count from the first. */
export interface LotSum {
  readonly used: number;
  readonly used_ul: number;
  readonly testsRead: number;
  readonly testsInvalid: number;
  readonly lastInvalidAt: string | null;
}
export const noUse: LotSum = { used: 0, used_ul: 0, testsRead: 0, testsInvalid: 0, lastInvalidAt: null };

/** Pieces left. May be negative: a mismatch is shown, not hidden. */
export const leftOf = ({ pieces, madeReady }: Pick<Lot, 'pieces' | 'madeReady'>, { used }: LotSum): number =>
  pieces - madeReady - used;
