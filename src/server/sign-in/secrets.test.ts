import { argon2id } from '@noble/hashes/argon2.js';
import { describe, expect, it } from 'vitest';
import { fitSecret, hashSecret, isSecret, newCode, newToken, readCode } from './secrets.js';

const bytes = (length: number, of: number): Uint8Array => new Uint8Array(length).fill(of);
const cheap = { m: 64, t: 1, p: 1 };

describe('how secrets are kept (Verifies: LOG-R203)', () => {
  it('the function is Argon2id: the test vector of RFC 9106, 5.3', () => {
    const tag = argon2id(bytes(32, 1), bytes(16, 2), {
      m: 32,
      t: 3,
      p: 4,
      key: bytes(8, 3),
      personalization: bytes(12, 4),
      dkLen: 32,
    });
    expect(Buffer.from(tag).toString('hex')).toBe('0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659');
  });

  it('holds a secret against what is kept, with a salt of its own, exactly as typed', async () => {
    const [kept, again] = [await hashSecret('Ünder the stairs', cheap), await hashSecret('Ünder the stairs', cheap)];
    expect(kept).not.toBe(again);
    expect(await isSecret('Ünder the stairs', kept)).toBe(true);
    // The same letters in another form of Unicode (RFC 8265, 4.2.1).
    expect(await isSecret('Ünder the stairs', kept)).toBe(true);
    for (const other of ['ünder the stairs', 'Ünder the stairs ', 'Ünder the stair', ''])
      expect([other, await isSecret(other, kept)]).toEqual([other, false]);
    expect(await isSecret('', null)).toBe(false);
  });

  it('asks for length, not for signs, and refuses what is guessed first', async () => {
    const fits = async (secret: string) => (await fitSecret('password', secret, ['Ana Maria', 'Inkwell Lane'])).ok;
    for (const good of ['seven quiet kittens', 'a'.repeat(30).replace(/a$/, 'bc'), 'пароль-котёнок', 'x y z x y z'])
      expect([good, await fits(good)]).toEqual([good, true]);
    // From lists of what people have used: `1qaz2wsx` and `jordan23` are no words.
    for (const bad of ['1qaz2wsx', 'Jordan23', 'starwars', 'Kittens!2026', 'qwertyuiop'])
      expect([bad, await fits(bad)]).toEqual([bad, false]);
    for (const bad of ['seven', 'password1', 'Letmein!!', '0000000000', 'maria2026', 'Inkwell123', 'q'.repeat(129)])
      expect([bad, await fits(bad)]).toEqual([bad, false]);
  });
});

it('codes and tokens are random enough, and read as they are typed', () => {
  const codes = new Set(Array.from({ length: 500 }, newCode));
  expect(codes.size).toBe(500);
  for (const code of codes) expect(readCode(` ${code.slice(0, 5).toLowerCase()} - ${code.slice(5)}`)).toBe(code);
  expect(Buffer.from(newToken(), 'base64url')).toHaveLength(32);
});
