import { describe, expect, it } from 'vitest';
import { agrees, countsOf, faultsOf, ledgerFaults } from './ask.js';
import { asksOf } from './asks.js';
import { digestOf, ledgerOf, parts, publishedOf, type Standing, type Value } from './value.js';

/** The frame sees what it is there to see: each fault is planted once. */
const value = (more: Partial<Value> = {}): Value => ({
  id: 'ONE-01',
  claim: 'Twice the weight is twice the dose',
  given: { weight: 2, unit: 'kg' },
  expect: { mg: 20, warn: false },
  source: 'a table',
  where: '',
  status: 'read',
  ...more,
});
const run: Standing = { is: 'run', rule: 'DOSE-R1', leftOut: {} };
const right = (given: { (key: string): string; number: (key: string) => number }) => ({
  mg: given('unit') === 'kg' ? String(given.number('weight') * 10) : '',
  warn: false,
});
const why = 'It is not asked, for this reason.';

describe('one value', () => {
  it('passes when all that is given is looked at and all that is expected is answered', () => {
    expect(faultsOf(value(), run, right)).toEqual([]);
  });

  it.each([
    ['the published number is another one', value({ expect: { mg: 21, warn: false } })],
    ['what is given is another number', value({ given: { weight: 3, unit: 'kg' } })],
    ['more is expected than is answered', value({ expect: { mg: 20, warn: false, mL: 2 } })],
    ['less is expected than is answered', value({ expect: { mg: 20 } })],
    ['a false stands where a nothing was meant', value({ expect: { mg: 20, warn: null } })],
  ])('fails when %s', (_, other) => {
    expect(faultsOf(other, run, right)).toHaveLength(1);
  });

  it('fails when the answer does not come from what is given', () => {
    expect(faultsOf(value(), run, () => ({ mg: '20', warn: false }))).toEqual([
      'ONE-01 does not look at weight, which is given',
      'ONE-01 does not look at unit, which is given',
    ]);
    const prose = value({ given: 'a line', expect: 'a code' });
    expect(faultsOf(prose, run, { ask: () => 'a code', wants: (text) => text })).toEqual([
      'ONE-01 does not look at the whole, which is given',
    ]);
  });

  it('fails when it compares nothing, or says that it leaves out what it asks', () => {
    const all = { mg: why, warn: why, unit: why };
    expect(faultsOf(value(), { ...run, leftOut: all }, (given) => ({ weight: given('weight') }))).toContain(
      'ONE-01 compares nothing',
    );
    expect(faultsOf(value(), { ...run, leftOut: { unit: why } }, right)).toEqual([
      'ONE-01 says that unit is left out, and asks it',
    ]);
  });

  it('fails when a deviation agrees again, and when it is another one', () => {
    const deviates = (ours: unknown): Standing => ({ is: 'deviates', rule: 'DOSE-R1', leftOut: {}, ours, reason: why });
    const ask = (standing: Standing, asked: Value) =>
      standing.is === 'not-asked' ? [] : faultsOf(asked, standing, right);
    const published = value({ expect: { mg: 21, warn: false } });
    expect(ask(deviates({ mg: '20', warn: false }), published)).toEqual([]);
    expect(ask(deviates({ mg: '22', warn: false }), published)).toHaveLength(1);
    expect(ask(deviates({ mg: '20', warn: false }), value())).toEqual([
      'ONE-01 now agrees with its source; it deviates no more',
    ]);
  });

  it('compares numbers by their digits', () => {
    expect(agrees('0.05', 0.05)).toBe(true);
    expect(agrees('0.050001', 0.05)).toBe(false);
    expect(agrees('5 mg', 5)).toBe(false);
    expect(agrees(['1', '2'], [1, 2])).toBe(true);
    expect(agrees(['1'], [1, 2])).toBe(false);
    expect(agrees(null, 0)).toBe(false);
  });
});

describe('the ledger', () => {
  const values = [value(), value({ id: 'ONE-02' })];
  const notAsked: Standing = { is: 'not-asked', reason: why, issue: null };
  const ledger = { digest: digestOf(values), standing: { 'ONE-01': run, 'ONE-02': notAsked } };
  const asks = { 'ONE-01': right };

  it('passes when every id stands in it and what is run is asked', () => {
    expect(ledgerFaults(values, ledger, asks)).toEqual([]);
    expect(countsOf(ledger)).toEqual({ values: 2, run: 1, inPart: 0, deviates: 0, notAsked: 1 });
  });

  it.each([
    ['an id is missing', { standing: { 'ONE-01': run } }, asks, 'ONE-02 is not in the ledger'],
    ['nothing asks what is said to be run', {}, {}, 'ONE-01 is said to be run and nothing asks it'],
    [
      'what is asked is said not to be',
      {},
      { ...asks, 'ONE-02': right },
      'ONE-02 is asked and the ledger does not say so',
    ],
    [
      'it has an id of its own',
      { standing: { ...ledger.standing, 'ONE-03': notAsked } },
      asks,
      'ONE-03 is in the ledger and not published',
    ],
  ])('fails when %s', (_, more, asked, fault) => {
    expect(ledgerFaults(values, { ...ledger, ...more } as typeof ledger, asked)).toEqual([fault]);
  });

  it('fails when a published value was written over', () => {
    const changed = [value({ expect: { mg: 22, warn: false } }), value({ id: 'ONE-02' })];
    expect(ledgerFaults(changed, ledger, asks)).toEqual([
      'the published values are not those the ledger was written for',
    ]);
  });
});

describe('the values of this project', () => {
  it.each(parts)('a number of %s that is changed fails its test', (part) => {
    const ledger = ledgerOf(part);
    const numbers = publishedOf(part).flatMap((one) => {
      const standing = ledger.standing[one.id];
      const ask = asksOf[part][one.id];
      if (standing?.is !== 'run' || ask === undefined || typeof ask !== 'function') return [];
      const keys = Object.entries(one.expect as Record<string, unknown>).filter(
        ([key, leaf]) => typeof leaf === 'number' && !(key in standing.leftOut),
      );
      return keys.map(([key, leaf]) => {
        const planted = { ...one, expect: { ...(one.expect as object), [key]: Number(leaf) * 1.001 + 0.001 } };
        return { id: one.id, key, seen: faultsOf(planted, standing, ask).length > 0 };
      });
    });
    expect(numbers.filter(({ seen }) => !seen)).toEqual([]);
    if (part === 'dosing') expect(numbers.length).toBeGreaterThan(100);
  });

  it('prose that says something else fails its test', () => {
    const ledger = ledgerOf('microchip');
    const prose = publishedOf('microchip').flatMap((one) => {
      const standing = ledger.standing[one.id];
      const ask = asksOf.microchip[one.id];
      if (standing?.is !== 'run' || ask === undefined || typeof ask === 'function') return [];
      const text = String(one.expect);
      const next = (sign: string): string => String.fromCharCode(sign.charCodeAt(0) + 1);
      const others = [text.replace(/\d/g, (digit) => String((Number(digit) + 1) % 10)), text.replace(/[a-y]/g, next)];
      const fails = (expect: string): boolean => {
        try {
          return faultsOf({ ...one, expect }, standing, ask).length > 0;
        } catch {
          return true;
        }
      };
      return [{ id: one.id, seen: others.some(fails) }];
    });
    expect(prose.filter(({ seen }) => !seen)).toEqual([]);
    expect(prose.length).toBeGreaterThan(30);
  });
});
