import type { SourceId } from '../ids.js';

/**
 * Published weight bands of kittens, grams, by age in days (both ends of a band included). The tables disagree by
 * design of their makers: one is chosen per nursery, they are never averaged. None is a clinical reference; they only
 * catch slips of the scale and give a hint.
 */
export interface WeightTable {
  readonly id: 'a' | 'b' | 'd';
  readonly name: string;
  readonly source: SourceId;
  readonly rows: readonly WeightBand[];
}
export interface WeightBand {
  readonly ageDays: number;
  readonly from_g: number;
  readonly to_g: number;
}

const source = (id: string): SourceId => id as SourceId;
const row = (ageDays: number, from_g: number, to_g = from_g): WeightBand => ({ ageDays, from_g, to_g });

/** Kitten feeding schedule and growth chart of a cat charity (consumer page, low grade). */
const a: WeightTable = {
  id: 'a',
  name: 'Charity feeding schedule and growth chart',
  source: source('catspyjamas-growth-chart'),
  rows: [
    row(0, 100),
    row(4, 130, 150),
    row(10, 210),
    row(14, 230),
    row(16, 265),
    row(21, 325),
    row(25, 360),
    row(28, 400),
    row(35, 480),
    row(42, 540),
    row(56, 600, 700),
    row(84, 1000, 1100),
  ],
};

/** Kitten weight chart, what is normal at each age (consumer page, low grade); the widest in range of ages. */
const b: WeightTable = {
  id: 'b',
  name: 'Kitten weight chart by week',
  source: source('planitup-weight-chart'),
  rows: [
    row(0, 70, 140),
    row(7, 140, 210),
    row(14, 210, 350),
    row(21, 350, 450),
    row(28, 450, 550),
    row(35, 550, 650),
    row(42, 650, 750),
    row(49, 750, 850),
    row(56, 850, 950),
    row(63, 950, 1050),
    row(70, 1050, 1150),
    row(84, 1250, 1400),
  ],
};

/** Feeding orphan kittens, animal hospital handout; its 4, 8, 12 and 16 ounces in whole grams. */
const d: WeightTable = {
  id: 'd',
  name: 'Animal hospital handout for orphans',
  source: source('four-seasons-orphan-kittens'),
  rows: [row(7, 113), row(14, 227), row(21, 340), row(28, 454)],
};

export const weightTables: readonly WeightTable[] = [a, b, d];
/** The table used when a nursery has not chosen: the one that covers most ages. */
export const usualWeightTable: WeightTable = b;

/** Whole weeks of age between its first and its last row for which a table prints nothing: said, never filled in. */
export function weeksWithout(table: WeightTable): number[] {
  const weeks = table.rows.map((each) => Math.floor(each.ageDays / 7));
  const [first = 0, last = 0] = [weeks[0], weeks.at(-1)];
  const missing: number[] = [];
  for (let week = first; week <= last; week++) if (!weeks.includes(week)) missing.push(week);
  return missing;
}

/**
 * The widest weight that is still believed of a kitten whose age lies between two numbers of days, in grams: 0.4 times
 * the low end at the youngest age to 2 times the high end at the oldest (ours). Past the last row the top is 14 kg,
 * twice the heaviest of the adult range of 2 to 7 kg (Salt et al. 2022).
 */
export function believable(
  ageDays: { readonly youngest: number; readonly oldest: number },
  table: WeightTable = usualWeightTable,
): { readonly from_g: number; readonly to_g: number } {
  const before = table.rows.filter((each) => each.ageDays <= Math.max(0, ageDays.youngest)).at(-1) ?? table.rows[0];
  const after = table.rows.find((each) => each.ageDays >= ageDays.oldest);
  return {
    from_g: Math.ceil(((before?.from_g ?? 0) * 2) / 5),
    to_g: after === undefined ? 14_000 : after.to_g * 2,
  };
}
