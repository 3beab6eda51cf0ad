import type { PersonId } from '../../core/ids.js';
import { say } from '../../words/say.js';
import { sync } from '../store/exchange.js';
import { store } from '../store/here.js';
import { checkPin, keepPin, mostWrong } from './offline-pin.js';

/** How somebody proves who they are: nothing in the invented shelter. */
export type Proof = { readonly kind: 'password' | 'pin'; readonly secret: string } | null;

export const isPin = (secret: string): boolean => /^\d{6}$/.test(secret);
/** What was typed into the one field: six digits are a PIN. */
export const proofOf = (secret: string): Proof => ({ kind: isPin(secret) ? 'pin' : 'password', secret });

/**
 * Sign somebody in on this device; the round, the page and the partner stay. Answers why not, or null. Without the network
 * a PIN is checked here, for who signed in here by it before.
 */
export async function signInHere(person: PersonId, proof: Proof, partner: PersonId | null): Promise<string | null> {
  const { device } = store.status.get();
  if (device === null) return say('parts.store-not-open');
  const answer =
    proof === null
      ? await sync.client.signInDemo({ person, device })
      : await sync.client.signIn({ person, ...proof, device });
  if (!answer.ok && answer.code !== 'unreachable') return answer.problem?.detail ?? say('desk.start.no-answer');
  if (!answer.ok && proof !== null) {
    const why = await withoutNetwork(person, proof);
    if (why !== null) return why;
  }
  if (answer.ok && proof?.kind === 'pin') await keepPin(person, proof.secret);
  await store.chooseWho({ person, partner: partner === person ? null : partner });
  return null;
}

async function withoutNetwork(person: PersonId, { kind, secret }: NonNullable<Proof>): Promise<string | null> {
  if (kind === 'password') return say('people.in.password-offline');
  switch (await checkPin(person, secret)) {
    case 'right':
      return null;
    case 'wrong':
      return say('people.in.pin-wrong');
    case 'used-up':
      return say('people.in.pin-used-up', { tries: mostWrong });
    case 'not-here':
      return say('people.in.pin-not-here');
  }
}
