import { describe, expect, test } from 'vitest';
import { plausibleWeight, type WhatIsKnown } from './plausible-weight.js';

const weeks = (n: number) => ({ youngest: n * 7, oldest: n * 7 });
const check = (grams: number, known: Partial<WhatIsKnown>): string => {
  const answer = plausibleWeight(grams, { last: null, ageDays: null, ...known });
  return answer.doubtful ? answer.why.say : 'fine';
};

describe('a weight against what is known (Verifies: DOSE-R14, LOG-R172)', () => {
  test.each<[string, number, { grams: number; daysAgo: number } | null, number | null, string]>([
    ['a normal week', 720, { grams: 620, daysAgo: 7 }, 7, 'fine'],
    ['the limit up', 775, { grams: 620, daysAgo: 7 }, 7, 'fine'],
    ['past it', 776, { grams: 620, daysAgo: 7 }, 7, 'dose.weight-jump-up'],
    ['the limit down', 527, { grams: 620, daysAgo: 7 }, 7, 'fine'],
    ['past it', 526, { grams: 620, daysAgo: 7 }, 7, 'dose.weight-jump-down'],
    ['the same in a day', 776, { grams: 620, daysAgo: 1 }, 7, 'dose.weight-jump-up'],
    ['a day of growth and a meal', 710, { grams: 620, daysAgo: 1 }, 7, 'fine'],
    ['a gain that no kitten has in a day', 713, { grams: 620, daysAgo: 1 }, 7, 'dose.weight-gain-too-fast'],
    ['nor in an hour', 690, { grams: 620, daysAgo: 0.05 }, 7, 'dose.weight-gain-too-fast'],
    ['nor one of 19 weeks', 2500, { grams: 2100, daysAgo: 1 }, 19, 'dose.weight-gain-too-fast'],
    ['from 20 weeks on only the week counts', 2500, { grams: 2100, daysAgo: 1 }, 20, 'fine'],
    ['two weeks', 920, { grams: 620, daysAgo: 14 }, 9, 'fine'],
    ['6.5 for 0.65', 6500, { grams: 620, daysAgo: 3 }, 7, 'dose.weight-jump-tenfold'],
    ['0.065 for 0.65', 65, { grams: 620, daysAgo: 3 }, 7, 'dose.weight-jump-tenfold'],
    ['pounds as kilograms', 1430, { grams: 640, daysAgo: 2 }, 7, 'dose.weight-jump-pounds'],
    ['kilograms as pounds', 290, { grams: 640, daysAgo: 2 }, 7, 'dose.weight-jump-pounds'],
    ['a newborn that doubles in 8 days', 200, { grams: 100, daysAgo: 8 }, 1, 'fine'],
    ['no last weight, fitting the age', 900, null, 8, 'fine'],
    ['no last weight, 2 kg at 8 weeks', 2000, null, 8, 'dose.weight-high-for-age'],
    ['no last weight, 300 g at 8 weeks', 300, null, 8, 'dose.weight-low-for-age'],
    ['an adult', 4200, null, 200, 'fine'],
    ['an adult of 15 kg', 15_000, null, 200, 'dose.weight-high-for-age'],
    ['nothing known', 4200, null, null, 'fine'],
  ])('%s: %i g', (_, grams, last, age, expected) => {
    expect(check(grams, { last, ageDays: age === null ? null : weeks(age) })).toBe(expected);
  });

  test('an estimated age believes the whole interval', () => {
    const ageDays = { youngest: 28, oldest: 70 };
    expect(check(2000, { ageDays })).toBe('fine');
    expect(check(2500, { ageDays })).toBe('dose.weight-high-for-age');
  });
});
