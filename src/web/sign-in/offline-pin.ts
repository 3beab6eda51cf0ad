import { argon2idAsync } from '@noble/hashes/argon2.js';
import type { PersonId } from '../../core/ids.js';
import { readMeta, writeMeta } from '../../device/db.js';
import { store } from '../store/here.js';

/** What this device checks a PIN against without the network: of who has signed in here by it before, of nobody else. */
interface KeptPin {
  readonly salt: string;
  readonly hash: string;
  /** Wrong tries in a row. */
  readonly wrong: number;
}

/**
 * Memory in KiB and passes: less than on the server, because a phone works it out; a PIN of six digits is guessed by
 * whoever has the device's database in either case, and it opens nothing that they do not have then (docs/asvs.md).
 */
const cost = { m: 8192, t: 1, p: 1, dkLen: 32 } as const;
/** After so many wrong tries the PIN works at the server only. Our choice, no source. */
export const mostWrong = 5;

const keyOf = (person: PersonId): string => `pin:${person}`;
const hex = (bytes: Uint8Array): string => [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
const digest = async (pin: string, salt: string): Promise<string> =>
  hex(await argon2idAsync(new TextEncoder().encode(pin), new TextEncoder().encode(salt), cost));

/** Keep what a PIN is checked against; the server has just said that it is right. */
export async function keepPin(person: PersonId, pin: string): Promise<void> {
  const salt = hex(crypto.getRandomValues(new Uint8Array(16)));
  const kept: KeptPin = { salt, hash: await digest(pin, salt), wrong: 0 };
  await writeMeta(store.db, keyOf(person), kept);
}

export const forgetPin = (person: PersonId): Promise<void> => store.db.meta.delete(keyOf(person));

/** `not-here`: this person has not signed in here by a PIN; `used-up`: it was wrong too often. */
export async function checkPin(person: PersonId, pin: string): Promise<'right' | 'wrong' | 'not-here' | 'used-up'> {
  const kept = (await readMeta(store.db, keyOf(person))) as KeptPin | undefined;
  if (kept === undefined) return 'not-here';
  if (kept.wrong >= mostWrong) return 'used-up';
  // Counted before it is looked at: a page that is loaded anew in between gives no try for nothing.
  await writeMeta(store.db, keyOf(person), { ...kept, wrong: kept.wrong + 1 });
  if ((await digest(pin, kept.salt)) !== kept.hash) return 'wrong';
  await writeMeta(store.db, keyOf(person), { ...kept, wrong: 0 });
  return 'right';
}
