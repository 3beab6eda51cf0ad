import type { Client } from '../../api/client.js';
import type { Said } from '../../core/said.js';
import { measureClock } from '../../log/device-clock.js';
import type { LocalStore } from '../store/store.js';
import type { Reach } from './reach.js';

/** Where the server's log ends now; or why it was not met. */
type Met = { readonly reached: true; readonly head: number } | Extract<Reach, { reached: false }>;

/**
 * Before anything is exchanged: is this the server of our shelter? The clocks are compared on the way, so that what is
 * written down from here on says how far this one is off.
 */
export async function meet(store: LocalStore, client: Client, now: () => string): Promise<Met> {
  const sentAt = now();
  const answer = await client.shelter();
  const gotAt = now();
  if (!answer.ok) {
    // It answers, and cannot do its work: that is for people to know, wherever they are.
    const { problem } = answer;
    if (problem !== null && problem.status >= 500) store.say({ told: [problem.said as Said] });
    return { reached: false, code: answer.code };
  }
  store.say({ told: answer.value.state === 'ready' ? (answer.value.told as Said[]) : [] });
  const known = store.status.get().clock;
  // A server whose own clock lies behind has nothing to say about this one.
  const isBehind = answer.value.state === 'ready' && answer.value.serverBehind_ms > 0;
  const clock = isBehind ? known : measureClock(known, sentAt, answer.value.serverAt, gotAt);
  if (clock !== null) await store.keepClock(clock);
  // There is a shelter, and it does not know who is asking.
  if (answer.value.state === 'closed') return { reached: false, code: 'person-missing' };
  const ours = store.world.get().shelter.id;
  if (answer.value.state === 'empty')
    return { reached: false, code: ours === null ? 'no-shelter-yet' : 'other-shelter' };
  if (ours !== null && answer.value.id !== ours) return { reached: false, code: 'other-shelter' };
  return { reached: true, head: answer.value.head.seq };
}
