import { describe, expect, it } from 'vitest';
import { changedSince, type InTheSyringe } from './drawn-up.js';

const shown: InTheSyringe = {
  product: 'fenbendazole',
  amount: '0.15 mL',
  mark: '0.15 mL',
  syringe: '1 mL oral syringe',
  strength: '100',
  lot: 'DEMO-P-02',
};

describe('what was shown to be drawn up has changed. Verifies: ROUND-R89', () => {
  it('nothing has, as long as the card says the same', () => {
    expect(changedSince(shown, { ...shown })).toEqual([]);
  });

  it('a corrected weight changes amount and mark, and both are told with what stood before', () => {
    expect(changedSince(shown, { ...shown, amount: '0.13 mL', mark: '0.13 mL' })).toEqual([
      { what: 'amount', before: '0.15 mL', now: '0.13 mL' },
      { what: 'mark', before: '0.15 mL', now: '0.13 mL' },
    ]);
  });

  it('the same amount in another syringe, of another strength, lot or product is a change', () => {
    const one = (by: Partial<InTheSyringe>) => changedSince(shown, { ...shown, ...by }).map(({ what }) => what);
    expect(one({ syringe: '3 mL oral syringe' })).toEqual(['syringe']);
    expect(one({ strength: '22.2' })).toEqual(['strength']);
    expect(one({ lot: 'DEMO-P-03' })).toEqual(['lot']);
    expect(one({ product: 'pyrantel' })).toEqual(['product']);
  });
});
