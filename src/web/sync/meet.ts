import type { Client } from '../../api/client.js';
import { readMeta, writeMeta } from '../store/db.js';
import type { LocalStore } from '../store/store.js';
import type { Reach } from './reach.js';

/**
 * Before anything is exchanged: is this the server of our shelter, and is its log at least as long as we have seen it?
 * A server that was put back from an older copy has lost records that we still hold; they are sent again.
 */
export async function meet(store: LocalStore, client: Client): Promise<Reach> {
  const answer = await client.shelter();
  if (!answer.ok) return { reached: false, code: answer.code };
  const ours = store.world.get().shelter.id;
  if (answer.value.state === 'empty')
    return { reached: false, code: ours === null ? 'no-shelter-yet' : 'other-shelter' };
  if (ours !== null && answer.value.id !== ours) return { reached: false, code: 'other-shelter' };
  const cursor = await readMeta(store.db, 'cursor');
  const { seq } = answer.value.head;
  if (typeof cursor === 'number' && seq < cursor) await sendAgainAfter(store, seq);
  return { reached: true };
}

async function sendAgainAfter(store: LocalStore, seq: number): Promise<void> {
  const { db } = store;
  await db.transaction('rw', db.records, db.outbox, db.meta, async () => {
    const lost = await db.records.filter((record) => (record.seq ?? 0) > seq).toArray();
    const rows = lost.map(({ id, deviceSeq }) => ({ id, deviceSeq, state: 'waiting' as const, why: null }));
    await db.outbox.bulkPut(rows);
    await writeMeta(db, 'cursor', 0);
  });
}
