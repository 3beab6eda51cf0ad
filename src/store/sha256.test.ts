import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hash, hashOfText, noHash } from '../log/hash.js';
import { sha256 } from './sha256.js';

describe("the machine's own SHA-256 (Verifies: LOG-R166)", () => {
  it('gives the same for any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (text) => {
        expect(sha256(text)).toBe(hashOfText(text));
      }),
    );
  });

  it('gives the same hash of a record in the chain', () => {
    const record = { id: 'r1', kind: 'x', body: { note: 'Zoë weighed 1.2 kg, 猫' }, seq: 1 } as never;
    expect(hash(noHash, record, sha256)).toBe(hash(noHash, record));
  });
});
