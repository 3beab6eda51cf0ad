import { exactly } from '../quantity/exact.js';
import { type Said, said } from '../said.js';

/** What one person says the animal weighs, whole grams, and what they draw, whole microlitres. */
export interface WorkedOut {
  readonly grams: number | null;
  readonly volume_ul: number;
}

export type Agreement = { readonly agree: true } | { readonly agree: false; readonly why: Said };

/** Two readings of one scale that agree this closely are the same reading, percent; ours. */
const weight_percent = 2;

/**
 * Whether a second person, who has not seen the first answer, comes to the same. The weight may differ by a wriggle of
 * the scale; the volume by no more than half a mark of the syringe, in microlitres. Which of the two is off is not
 * said with its figure, so that the second try is as independent as the first.
 */
export function independently(first: WorkedOut, second: WorkedOut, mark_ul: number): Agreement {
  const off = first.grams === null || second.grams === null ? null : exactly(second.grams).sub(first.grams).abs();
  if (off?.mul(100).gt(exactly(first.grams ?? 0).mul(weight_percent))) {
    return { agree: false, why: said('dose.second.weight-differs') };
  }
  const volume = exactly(second.volume_ul).sub(first.volume_ul).abs();
  if (volume.mul(2).gt(mark_ul)) return { agree: false, why: said('dose.second.volume-differs') };
  return { agree: true };
}
