import type { LotId } from '../core/ids.js';

/**
 * What animals that are not here have taken from lots since these were last counted, as the server's numbers and those
 * worked out here differ. Counts as long as the lot was not counted anew.
 */
export type UsedAway = ReadonlyMap<LotId, { readonly countedAt: string; readonly pieces: number }>;

export const nothingAway: UsedAway = new Map();
