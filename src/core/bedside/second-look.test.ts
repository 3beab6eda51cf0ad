import { describe, expect, it } from 'vitest';
import { asksSecond, readingWaits } from './second-look.js';

const partner = { name: 'Sol' };
const read = (result: 'negative' | 'reactive', faint = false) => ({ result, faint }) as const;

describe('a second pair of eyes (Verifies: ROUND-R87)', () => {
  it('is waited for at a faint and at a reactive reading, where somebody is there', () => {
    expect(readingWaits(read('negative', true), partner, null)).toBe('round.why.second');
    expect(readingWaits(read('reactive'), partner, null)).toBe('round.why.second');
    expect(readingWaits(read('reactive', true), partner, 'same')).toBeNull();
    expect(readingWaits(read('reactive', true), partner, 'not-looked')).toBeNull();
  });

  it('is asked of nobody else and at no plain reading', () => {
    expect(asksSecond(read('reactive', true), null)).toBe(false);
    expect(readingWaits(read('reactive', true), null, null)).toBeNull();
    expect(readingWaits(read('negative'), partner, null)).toBeNull();
    expect(readingWaits(null, partner, 'same')).toBe('round.why.zones');
  });
});
