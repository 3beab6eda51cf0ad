import { secondsUntil } from '../../core/point-of-care/kit.js';
import type { KitsTakenOut } from '../views/shelter.js';

/** Tests taken out of the cold longer ago than this belong to another shift and are not counted; ours. */
export const sameShift_s = 12 * 3600;

/** Tests of one box that left the cold together, with how many of them have not been started. */
export interface BatchOut {
  readonly at: string;
  readonly left: number;
  readonly ago_s: number;
}

/** As much of a box as says when tests were taken out of it. */
export interface OutOfCold {
  readonly outOfCold: readonly Pick<KitsTakenOut, 'at' | 'count'>[];
}

/**
 * What is left of the tests taken out of the cold from one box in this shift, oldest first. Every start uses up one of
 * the oldest that were out by then. `starts`: instants at which tests of this box were started.
 */
export function batchesOut(lot: OutOfCold, starts: readonly string[], now: string): BatchOut[] {
  const batches = lot.outOfCold
    .map(({ at, count }) => ({ at, left: count, ago_s: secondsUntil(at, now) }))
    .filter(({ ago_s }) => ago_s < sameShift_s)
    .sort((a, b) => b.ago_s - a.ago_s);
  for (const start of [...starts].sort()) {
    const used = batches.find((batch) => batch.left > 0 && batch.at <= start);
    if (used !== undefined) used.left -= 1;
  }
  return batches.filter((batch) => batch.left > 0);
}
