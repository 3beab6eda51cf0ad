import { describe, expect, it } from 'vitest';
import { faultsOf, ledgerFaults } from './ask.js';
import { asksOf } from './asks.js';
import { ledgerOf, parts, publishedOf } from './value.js';

/** Every published value, put to the product as the ledger says: the given and the expected come from its file. */
describe.each(parts)('published values: %s', (part) => {
  const values = publishedOf(part);
  const ledger = ledgerOf(part);
  const asks = asksOf[part];

  it('every id stands in the ledger, and is asked where that says so', () => {
    expect(ledgerFaults(values, ledger, asks)).toEqual([]);
  });

  for (const value of values) {
    const standing = ledger.standing[value.id];
    const ask = asks[value.id];
    if (standing === undefined || standing.is === 'not-asked' || ask === undefined) continue;
    it(`${value.id} ${value.claim} Verifies: ${standing.rule}`, () => {
      expect(faultsOf(value, standing, ask)).toEqual([]);
    });
  }
});
