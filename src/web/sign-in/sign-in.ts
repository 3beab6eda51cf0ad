import type { PersonId } from '../../core/ids.js';
import { say } from '../../words/say.js';
import { store } from '../store/here.js';
import { signing } from './asks.js';

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
    proof === null ? await signing.signInDemo({ person, device }) : await signing.signIn({ person, ...proof, device });
  if (!answer.ok && answer.code !== 'unreachable') return answer.problem?.detail ?? say('desk.start.no-answer');
  if (!answer.ok && proof !== null) {
    const why = await withoutNetwork(person, proof);
    if (why !== null) return why;
  }
  if (answer.ok && proof?.kind === 'pin') await keepHere(person, proof.secret);
  await store.chooseWho({ person, partner: partner === person ? null : partner });
  return null;
}

/** Its slow hash is fetched when it is needed, and with the rest of the program. */
const pins = () => import('../../device/store/pins.js');

async function keepHere(person: PersonId, pin: string): Promise<void> {
  const salt = [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0'));
  await (await pins()).keepPin(store.db, person, pin, salt.join(''));
}

/** The first password or PIN of somebody who was given a code. Answers why not, or null. */
export async function signInByCode(code: string, secret: string): Promise<string | null> {
  const { device } = store.status.get();
  if (device === null) return say('parts.store-not-open');
  const kind = isPin(secret) ? 'pin' : 'password';
  const answer = await signing.signInByCode({ code, kind, secret, device });
  if (!answer.ok) return answer.problem?.detail ?? say('desk.start.no-answer');
  const { person } = answer.value;
  if (kind === 'pin') await keepHere(person, secret);
  await store.chooseWho({ person, partner: null });
  return null;
}

/** Nobody has this device any more; what is written here and not sent stays until somebody signs in. */
export async function signOutHere(): Promise<void> {
  await signing.signOut();
  await store.chooseWho({ person: null, partner: null });
}

async function withoutNetwork(person: PersonId, { kind, secret }: NonNullable<Proof>): Promise<string | null> {
  if (kind === 'password') return say('people.in.password-offline');
  const { checkPin, mostWrong } = await pins();
  switch (await checkPin(store.db, person, secret)) {
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
