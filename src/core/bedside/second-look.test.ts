import { describe, expect, it } from 'vitest';
import { asksSecond, hidesResult, readingWaits, withSecondLooks } from './second-look.js';

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

describe('what the second person is told (Verifies: ROUND-R99)', () => {
  it('is nothing before they have answered or the look was passed', () => {
    expect(hidesResult(read('reactive', true), partner, null)).toBe(true);
    expect(hidesResult(read('reactive', true), partner, 'same')).toBe(false);
    expect(hidesResult(read('reactive', true), partner, 'not-looked')).toBe(false);
    expect(hidesResult(read('reactive', true), null, null)).toBe(false);
  });

  it('nor while whoever sees something else has not said all of it', () => {
    expect(hidesResult(read('reactive', true), partner, 'other')).toBe(true);
    expect(hidesResult(read('reactive', true), partner, 'other', read('negative'))).toBe(false);
  });

  it('and who sees something else says what, zone by zone', () => {
    expect(readingWaits(read('reactive', true), partner, 'other', null)).toBe('round.why.second-zones');
    expect(readingWaits(read('reactive', true), partner, 'other', read('negative'))).toBeNull();
  });

  it('a look that is missing is missing until another person has read the same kit', () => {
    const first = { by: 'ines', unseconded: true as const };
    expect(withSecondLooks([first])).toEqual([first]);
    expect(withSecondLooks([first, { by: 'sol' }])).toEqual([{ by: 'ines' }, { by: 'sol' }]);
  });
});
