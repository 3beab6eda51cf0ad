import { describe, expect, test } from 'vitest';
import { differingSigns } from './differing-signs.js';
import { isPiece, readWhole } from './whole-number.js';

const known = new Set(['900000000204276', '031820285']);
const answer = (raw: string, before: string | null = null): string => {
  const read = readWhole(raw, known, before);
  return read.ok ? read.value.code : read.why.say;
};

describe('a piece of a number is never a number (Verifies: CHIP-R17)', () => {
  test.each([
    ['its beginning', '900000000', 'chip.cut'],
    ['its end', '000204276', 'chip.cut'],
    ['ten of its digits', '9000000002', 'chip.cut'],
    ['too few for any chip', '90000000', 'chip.length'],
    ['fourteen of fifteen', '90000000020427', 'chip.zero-missing'],
    ['the whole', '900000000204276', '900000000204276'],
    ['a chip of an older kind that is on record', '031820285', '031820285'],
    ['an unknown short one, once', '123456789', 'chip.once-more'],
  ])('%s', (_, raw, expected) => {
    expect(answer(raw)).toBe(expected);
  });

  test('twice the same, an unknown short one counts; a piece never does', () => {
    expect(answer('123456789', '123456789')).toBe('123456789');
    expect(answer('123456789', '123456788')).toBe('chip.once-more');
    expect(answer('900000000', '900000000')).toBe('chip.cut');
  });

  test('every piece of a known number is one', () => {
    const whole = '900000000204276';
    for (let from = 0; from < whole.length; from += 1) {
      for (const length of [9, 10])
        if (from + length <= 15) expect(isPiece(whole.slice(from, from + length), known)).toBe(true);
    }
  });
});

describe('where two numbers differ (Verifies: CHIP-R14)', () => {
  test.each([
    ['900000000205519', '900000000205518', [15]],
    ['900000000205519', '900000000205519', []],
    ['900000000205519', '900000000', [10, 11, 12, 13, 14, 15]],
  ])('%s and %s: %j', (one, other, places) => {
    expect(differingSigns(one, other)).toEqual(places);
  });
});
