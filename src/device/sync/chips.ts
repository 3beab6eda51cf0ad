import type { Client } from '../../api/client.js';
import { logStart, readMeta, readPlace, writeMeta } from '../db.js';
import type { LocalStore } from '../store/store.js';
import type { Reach } from './reach.js';

/** Fetch what is new in the index of all chips since it was fetched last; after another history all of it. */
export async function pullChips(store: LocalStore, client: Client): Promise<Reach> {
  const { db } = store;
  let at = await readPlace(db, 'chips');
  if (at.place > 0 && (await readMeta(db, 'chipsOld')) !== true) return { reached: true };
  let answer = await client.chips(at.place > 0 ? { after: at.place, hash: at.hash } : {});
  if (!answer.ok && answer.code === 'another-history') {
    at = logStart;
    answer = await client.chips();
  }
  if (!answer.ok) return { reached: false, code: answer.code };
  const { chips, without, place: upTo, hash } = answer.value;
  const anew = at.place === 0;
  await db.transaction('rw', db.chips, db.meta, async () => {
    if (anew) await db.chips.clear();
    await db.chips.bulkDelete(without);
    await db.chips.bulkPut(chips);
    await writeMeta(db, 'chips', { place: upTo, hash });
    await db.meta.delete('chipsOld');
  });
  store.takeChips(chips, without, anew);
  return { reached: true };
}
