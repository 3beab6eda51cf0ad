import type { LotId } from '../../core/ids.js';
import type { UsedAway } from '../../log/away.js';

/** Pieces of a lot that animals which are not here have used since it was counted. */
export interface Away {
  readonly lot: LotId;
  readonly countedAt: string;
  readonly pieces: number;
}

export const awayOf = (used: readonly Away[]): UsedAway => new Map(used.map((one) => [one.lot, one]));
