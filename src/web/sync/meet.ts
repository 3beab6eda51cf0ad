import type { Client } from '../../api/client.js';
import type { LocalStore } from '../store/store.js';
import type { Reach } from './reach.js';

/** Before anything is exchanged: is this the server of our shelter? */
export async function meet(store: LocalStore, client: Client): Promise<Reach> {
  const answer = await client.shelter();
  if (!answer.ok) return { reached: false, code: answer.code };
  const ours = store.world.get().shelter.id;
  if (answer.value.state === 'empty')
    return { reached: false, code: ours === null ? 'no-shelter-yet' : 'other-shelter' };
  if (ours !== null && answer.value.id !== ours) return { reached: false, code: 'other-shelter' };
  return { reached: true };
}
