import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonical } from './canonical.js';
import { chainStart, hash, noHash, verifyChain } from './hash.js';
import type { KeptEnvelope } from './store.js';

/** RFC 8785, appendix B: IEEE 754 bit patterns and the number text they must give. */
const appendixB: readonly (readonly [string, string])[] = [
  ['0000000000000000', '0'],
  ['8000000000000000', '0'],
  ['0000000000000001', '5e-324'],
  ['8000000000000001', '-5e-324'],
  ['7fefffffffffffff', '1.7976931348623157e+308'],
  ['ffefffffffffffff', '-1.7976931348623157e+308'],
  ['4340000000000000', '9007199254740992'],
  ['c340000000000000', '-9007199254740992'],
  ['4430000000000000', '295147905179352830000'],
  ['44b52d02c7e14af5', '9.999999999999997e+22'],
  ['44b52d02c7e14af6', '1e+23'],
  ['44b52d02c7e14af7', '1.0000000000000001e+23'],
  ['444b1ae4d6e2ef4e', '999999999999999700000'],
  ['444b1ae4d6e2ef4f', '999999999999999900000'],
  ['444b1ae4d6e2ef50', '1e+21'],
  ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
  ['3eb0c6f7a0b5ed8d', '0.000001'],
  ['41b3de4355555553', '333333333.3333332'],
  ['41b3de4355555554', '333333333.33333325'],
  ['41b3de4355555555', '333333333.3333333'],
  ['41b3de4355555556', '333333333.3333334'],
  ['41b3de4355555557', '333333333.33333343'],
  ['becbf647612f3696', '-0.0000033333333333333333'],
  ['43143ff3c1cb0959', '1424953923781206.2'],
];

describe('canonical JSON (Verifies: LOG-R3)', () => {
  it.each(appendixB)('writes the number %s as RFC 8785 appendix B does: %s', (bits, text) => {
    expect(canonical(Buffer.from(bits, 'hex').readDoubleBE())).toBe(text);
  });

  it('writes the worked example of RFC 8785, section 3.2', () => {
    const input = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],' +
        '"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    );
    expect(canonical(input)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  it('sorts the keys of RFC 8785, section 3.2.3, by code units', () => {
    const names = ['\u20ac', '\r', '\ufb33', '1', '\u{1f600}', '\u0080', '\u00f6'];
    const keys = Object.keys(JSON.parse(canonical(Object.fromEntries(names.map((name) => [`k${name}`, 0])))));
    expect(keys).toEqual(['\r', '1', '\u0080', '\u00f6', '\u20ac', '\u{1f600}', '\ufb33'].map((name) => `k${name}`));
  });

  it('says the same whatever the order of fields, and reads back unharmed', () => {
    fc.assert(
      fc.property(fc.jsonValue({ stringUnit: 'binary', maxDepth: 2 }), (value) => {
        const text = canonical(value);
        expect(canonical(JSON.parse(text))).toBe(text);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
        expect(canonical(reversed(value))).toBe(text);
      }),
      { numRuns: 60 },
    );
  });

  it.each([[Number.NaN], [Number.POSITIVE_INFINITY], ['half \ud800'], [1n], [() => 1]])('refuses %s', (value) => {
    expect(() => canonical({ value })).toThrow(TypeError);
  });
});

function reversed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reversed);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([name, field]) => [name, reversed(field)]),
  );
}

const kept = (seq: number, note: string): Omit<KeptEnvelope, 'hash'> =>
  ({
    id: `r${seq}`,
    kind: 'x',
    body: { note },
    seq,
    receivedAt: '2026-03-08T14:00:00.000Z',
  }) as unknown as KeptEnvelope;

function chain(notes: readonly string[]): KeptEnvelope[] {
  let before = noHash;
  return notes.map((note, index) => {
    const record = kept(index + 1, note);
    before = hash(before, record);
    return { ...record, hash: before } as KeptEnvelope;
  });
}

describe('the chain of hashes (Verifies: LOG-R3)', () => {
  it('is plain SHA-256 over the hash before and the canonical record', () => {
    const record = kept(1, 'weighed');
    const text = '{"body":{"note":"weighed"},"id":"r1","kind":"x","receivedAt":"2026-03-08T14:00:00.000Z","seq":1}';
    expect(hash(noHash, record)).toBe(
      createHash('sha256')
        .update(noHash + text, 'utf8')
        .digest('hex'),
    );
  });

  it('is whole over records left alone, in one go or page by page', () => {
    const records = chain(['a', 'b', 'c', 'd']);
    const end = { seq: 4, hash: records[3]?.hash };
    expect(verifyChain(records)).toEqual({ whole: true, end });
    const first = verifyChain(records.slice(0, 2));
    expect(first.whole && verifyChain(records.slice(2), first.end)).toEqual({ whole: true, end });
    expect(verifyChain([])).toEqual({ whole: true, end: chainStart });
  });

  it('shows any record changed, left out, swapped or put in between', () => {
    const notes = fc.array(fc.string(), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(notes, fc.nat(), fc.constantFrom('change', 'drop', 'swap', 'insert'), (texts, where, how) => {
        const records = chain(texts);
        const at = where % (records.length - 1);
        const one = records[at] as KeptEnvelope;
        if (how === 'change') records[at] = { ...one, body: { note: `${texts[at]}!` } };
        if (how === 'drop') records.splice(at, 1);
        if (how === 'swap') records.splice(at, 2, records[at + 1] as KeptEnvelope, one);
        if (how === 'insert') records.splice(at, 0, one);
        expect(verifyChain(records).whole).toBe(false);
      }),
    );
  });
});
