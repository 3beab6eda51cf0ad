import type { z } from 'zod';
import type { LotsLeft } from '../../api/wire.js';
import type { LotId } from '../../core/ids.js';
import type { Context } from '../context.js';

/** What is left of every lot by the records of all animals, here or not, and the place up to which that is. */
export async function lotsLeft({ store }: Context): Promise<z.output<typeof LotsLeft>> {
  for (;;) {
    const before = await store.head();
    const rows = await store.rows('lots');
    const after = await store.head();
    // Both are of one moment only when nothing came in between.
    if (before.seq !== after.seq) continue;
    return {
      lots: rows.map(({ lot, pieces_left }) => ({ lot: lot as LotId, left: pieces_left })),
      place: after.seq,
      hash: after.hash,
    };
  }
}
