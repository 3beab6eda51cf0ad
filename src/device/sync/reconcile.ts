import type { Client } from '../../api/client.js';
import { readMeta } from '../db.js';
import type { LocalStore } from '../store/store.js';
import { type Pulling, takeHistory } from './pull.js';
import type { Reach } from './reach.js';

/**
 * After records were put back from an older copy, an animal may be here again that this device never held, or may have
 * left in places that it does not ask for: the animals in care are compared once, and what differs is fetched whole.
 */
export async function reconcile(store: LocalStore, client: Client, pulling: Pulling): Promise<Reach> {
  const { db } = store;
  if ((await readMeta(db, 'reconcile')) !== true) return { reached: true };
  const answer = await client.animals({ inCare: 'yes' });
  if (!answer.ok) return { reached: false, code: answer.code };
  const there = new Set(answer.value.animals.map(({ animal }) => animal));
  const held = new Set([...store.world.get().animals.values()].filter((one) => one.left === null).map(({ id }) => id));
  for (const animal of new Set([...there, ...held])) {
    if (there.has(animal) && held.has(animal)) continue;
    const fetched = await takeHistory(db, client, animal, pulling);
    if (!fetched.reached) return fetched;
  }
  await db.meta.delete('reconcile');
  return { reached: true };
}
