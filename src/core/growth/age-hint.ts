import { plain } from '../quantity/exact.js';
import { fromGrams } from '../quantity/units.js';
import { type Said, said } from '../said.js';
import { usualWeightTable, type WeightTable } from './weight-tables.js';

export interface AgeHint {
  /** Youngest and oldest age in days whose weight band holds this weight; null outside the table. */
  readonly days: readonly [number, number] | null;
  readonly why: Said;
}

/**
 * Which ages of a weight table hold a weight: a hint beside teeth and eyes, never an age to dose on. A thin kitten is
 * older than its weight says.
 */
export function ageHintFromWeight(grams: number, table: WeightTable = usualWeightTable): AgeHint {
  const holding = table.rows.filter((row) => grams >= row.from_g && grams <= row.to_g);
  const [first, last] = [holding[0], holding.at(-1)];
  if (first === undefined || last === undefined) {
    return { days: null, why: said('growth.age-hint-none', { weight: { grams }, table: table.name }) };
  }
  const values = {
    weight: { grams },
    from: { ageDays: first.ageDays },
    to: { ageDays: last.ageDays },
    same: first === last ? 'yes' : 'no',
    table: table.name,
  };
  return { days: [first.ageDays, last.ageDays], why: said('growth.age-hint', values) };
}

/** Rule of thumb of a pound a month up to 4 or 5 months (from memory): months of age, up to one decimal. */
export const poundAMonth = (grams: number): string => plain(fromGrams(grams, 'lb'), 1);
