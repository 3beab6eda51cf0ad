import { argon2idAsync } from '@noble/hashes/argon2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { PersonId } from '../../core/ids.js';
import { type Db, readMeta, writeMeta } from '../db.js';

/** What a device checks a PIN against without the network: of who has signed in there by it before, of nobody else. */
interface KeptPin {
  readonly salt: string;
  readonly hash: string;
  /** Wrong tries in a row. */
  readonly wrong: number;
}

/**
 * Memory in KiB and passes: less than on the server, because a phone works it out; a PIN of six digits is guessed by
 * whoever has the device's database in either case, and it opens nothing that they do not have then.
 */
const cost = { m: 8192, t: 1, p: 1, dkLen: 32 } as const;
/** After so many wrong tries the PIN works at the server only. Our choice, no source. */
export const mostWrong = 5;

const keyOf = (person: PersonId): string => `pin:${person}`;
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const digest = async (pin: string, salt: string): Promise<string> =>
  bytesToHex(await argon2idAsync(bytesOf(pin), bytesOf(salt), cost));

/** Keep what a PIN is checked against; the server has just said that it is right. `salt`: 16 random bytes, hex. */
export async function keepPin(db: Db, person: PersonId, pin: string, salt: string): Promise<void> {
  const kept: KeptPin = { salt, hash: await digest(pin, salt), wrong: 0 };
  await writeMeta(db, keyOf(person), kept);
}

/** `not-here`: this person has not signed in here by a PIN; `used-up`: it was wrong too often. */
export async function checkPin(
  db: Db,
  person: PersonId,
  pin: string,
): Promise<'right' | 'wrong' | 'not-here' | 'used-up'> {
  // Counted before it is looked at: a page that is loaded anew in between gives no try for nothing.
  const kept = await db.transaction('rw', db.meta, async () => {
    const now = (await readMeta(db, keyOf(person))) as KeptPin | undefined;
    if (now !== undefined && now.wrong < mostWrong)
      await writeMeta(db, keyOf(person), { ...now, wrong: now.wrong + 1 });
    return now;
  });
  if (kept === undefined) return 'not-here';
  if (kept.wrong >= mostWrong) return 'used-up';
  if ((await digest(pin, kept.salt)) !== kept.hash) return 'wrong';
  await writeMeta(db, keyOf(person), { ...kept, wrong: 0 });
  return 'right';
}
