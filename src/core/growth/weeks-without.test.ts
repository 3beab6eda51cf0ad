import { describe, expect, it } from 'vitest';
import { ageHintFromWeight } from './age-hint.js';
import { usualWeightTable, weeksWithout, weightTables } from './weight-tables.js';

/** Kitten weight chart by week: its rows are those of weeks 0 to 10 and of week 12. */
describe('a week that a table does not print (Verifies: GROW-R12)', () => {
  it('is named', () => {
    expect(weeksWithout(usualWeightTable)).toEqual([11]);
    expect(weightTables.map((table) => [table.id, weeksWithout(table)])).toEqual([
      ['a', [7, 9, 10, 11]],
      ['b', [11]],
      ['d', []],
    ]);
  });
  it('is not hinted at by a weight: 1,200 g lie between the rows of 10 and 12 weeks', () => {
    expect(ageHintFromWeight(1200)).toMatchObject({ days: null, why: { say: 'growth.age-hint-none' } });
  });
});
