import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import { argon2idAsync } from '@noble/hashes/argon2.js';
import { no, type Outcome, ok } from '../../core/said.js';
import type { SecretKind } from '../../store/private/sign-ins.js';
import { isCommon } from './common-passwords.js';
import { signInLimits } from './limits.js';

/** Memory in KiB, passes and lanes: the least that OWASP's Password Storage Cheat Sheet names for Argon2id. */
const usualCost = { m: 19_456, t: 2, p: 1 } as const;
type Cost = Readonly<Record<'m' | 't' | 'p', number>>;

/** One at a time: each takes 19 MiB and most of a second, and strangers may ask for many. */
let turn: Promise<unknown> = Promise.resolve();
function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const mine = turn.then(work, work);
  turn = mine.catch(() => undefined);
  return mine;
}

/** What is typed as the same characters gives the same bytes (RFC 8265, 4.2.1: normalization form C). */
const bytesOf = (secret: string): Uint8Array => new TextEncoder().encode(secret.normalize('NFC'));

const digest = (secret: string, salt: Uint8Array, { m, t, p }: Cost) =>
  inTurn(() => argon2idAsync(bytesOf(secret), salt, { m, t, p, dkLen: 32, asyncTick: 5 }));

/** A password or PIN as it is kept: the PHC text of its Argon2id (RFC 9106) with a salt of its own. */
export async function hashSecret(secret: string, cost: Cost = usualCost): Promise<string> {
  const salt = randomBytes(16);
  return phc(cost, salt, await digest(secret, salt, cost));
}

const phc = ({ m, t, p }: Cost, salt: Uint8Array, hash: Uint8Array): string =>
  `$argon2id$v=19$m=${m},t=${t},p=${p}$${base64(salt)}$${base64(hash)}`;
const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64').replace(/=+$/, '');

/** Nobody's: what is worked out where there is nobody, so that the time taken says nothing. */
const nobodys = phc(usualCost, new Uint8Array(16), new Uint8Array(32));

/** Whether it is what is kept; takes as long where nothing is. */
export async function isSecret(secret: string, kept: string | null): Promise<boolean> {
  const [, , , costs = '', salt = '', hash = ''] = (kept ?? nobodys).split('$');
  const [m = 0, t = 0, p = 0] = costs.split(',').map((part) => Number(part.slice(2)));
  const found = await digest(secret, Buffer.from(salt, 'base64'), { m, t, p });
  const same = timingSafeEqual(found, Buffer.from(hash, 'base64'));
  return same && kept !== null;
}

/** Why a secret is not taken; no other rules of what has to be in it (V6.2.5). */
export async function fitSecret(kind: SecretKind, secret: string, words: readonly string[]): Promise<Outcome<null>> {
  if (kind === 'pin') {
    if (!/^\d+$/.test(secret) || secret.length !== signInLimits.pin) {
      return no('people.pin.digits', { digits: signInLimits.pin });
    }
    const steps = new Set([...secret].slice(1).map((digit, index) => Number(digit) - Number(secret[index])));
    const [step = 0] = steps;
    return steps.size === 1 && Math.abs(step) <= 1 ? no('people.pin.guessed') : ok(null);
  }
  const length = [...secret].length;
  const { least, most } = signInLimits.password;
  if (length < least || length > most) return no('people.password.length', { least, most });
  const bare = secret.toLowerCase().replace(/\P{L}+$/u, '');
  const named = words.flatMap((word) => word.toLowerCase().split(/\s+/)).includes(bare);
  const same = new Set(secret).size <= 2;
  return bare === '' || same || named || (await isCommon(secret)) ? no('people.password.guessed') : ok(null);
}

/** 256 random bits for a cookie, as text that fits into one. */
export const newToken = (): string => randomBytes(32).toString('base64url');

/** Letters and digits that are not taken for one another; ten of them hold 50 bits. */
const signs = 'ABCDEFGHJKLMNPQRSTUVWXYZ23456789';
export const newCode = (): string => Array.from({ length: 10 }, () => signs[randomInt(signs.length)]).join('');

/** A code as somebody types it: without the gaps, in capitals. */
export const readCode = (typed: string): string => typed.toUpperCase().replace(/[^A-Z0-9]/g, '');

/** Tokens and codes are random enough to be kept under a plain hash. */
export const tokenHash = (token: string): string => createHash('sha256').update(token).digest('hex');
export const sameHash = (a: string, b: string): boolean =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));
