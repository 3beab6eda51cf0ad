import type { Client } from '../../api/client.js';
import { usedAway } from '../../log/stock/lots.js';
import { readCursor, readMeta, writeMeta } from '../db.js';
import type { LocalStore } from '../store/store.js';
import type { Reach } from './reach.js';

/**
 * What the animals that are not here have taken from each lot: the server's number against the one that is worked out
 * here, compared when both stand for the same records. Asked again when a lot may have been used, or other animals are
 * held.
 */
export async function pullLots(store: LocalStore, client: Client): Promise<Reach> {
  const { db, world } = store;
  const held = [...world.get().animals.keys()].sort().join(' ');
  const isNew = (await readMeta(db, 'lotsOld')) !== true && (await readMeta(db, 'lotsHeld')) === held;
  if (isNew) return { reached: true };
  if ((await db.outbox.count()) > 0) return { reached: true };
  const answer = await client.lots();
  if (!answer.ok) return { reached: false, code: answer.code };
  const { place, hash } = await readCursor(db);
  // Somebody has written meanwhile: the next exchange asks again.
  if (answer.value.place !== place || answer.value.hash !== hash) return { reached: true };
  const away = [...usedAway(world.get(), answer.value.lots)].map(([lot, used]) => ({ lot, ...used }));
  await db.transaction('rw', db.meta, async () => {
    await writeMeta(db, 'away', away);
    await writeMeta(db, 'lotsHeld', held);
    await db.meta.delete('lotsOld');
  });
  store.takeAway(away);
  return { reached: true };
}
