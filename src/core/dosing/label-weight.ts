import { z } from 'zod';
import { exactly } from '../quantity/exact.js';
import { gramsIn, wholeGrams } from '../quantity/units.js';
import { writeNumber } from '../quantity/write.js';
import { Exact } from './exact-text.js';

/** A weight as its label prints it: pounds stay pounds, and are put into whole grams as a weighing is. */
export const LabelWeight = z.object({ amount: Exact, unit: z.enum(['g', 'kg', 'lb']) });
export type LabelWeight = z.infer<typeof LabelWeight>;

/** The label's weight in whole grams, half-way down: a cat weighed at just this many pounds has reached it. */
export const labelGrams = ({ amount, unit }: LabelWeight): number => wholeGrams(exactly(amount).mul(gramsIn[unit]));

export const writeLabelWeight = ({ amount, unit }: LabelWeight): string => `${writeNumber(amount)}\u00a0${unit}`;

const given = { ml: Exact.optional(), pieces: z.string().optional() };

/** One line of a printed table of weights. */
export const WeightRow = z.union([
  /** Grams: `from` inclusive, `to` exclusive. */
  z.object({ from_g: z.number().int(), to_g: z.number().int(), ...given }),
  /**
   * Pounds, as the label has them: the lower edge belongs to the row unless it begins `over` it, the upper one only where
   * the row goes `through` it.
   */
  z.object({
    from_lb: Exact,
    to_lb: Exact,
    over: z.boolean().default(false),
    through: z.boolean().default(false),
    ...given,
  }),
]);
export type WeightRow = z.infer<typeof WeightRow>;

/** Edges of a row in whole grams, `from` inclusive and `to` exclusive, and as the label writes them. */
export interface RowEdges {
  readonly from_g: number;
  readonly to_g: number;
  readonly from: string;
  readonly to: string;
  /** `yes` where the row begins over its lower edge, and where it goes through its upper one. */
  readonly over: 'yes' | 'no';
  readonly through: 'yes' | 'no';
}

const grams = (text: number): LabelWeight => ({ amount: String(text), unit: 'g' });
const pounds = (amount: string): LabelWeight => ({ amount, unit: 'lb' });

export function edgesOf(row: WeightRow): RowEdges {
  if ('from_g' in row) {
    const { from_g, to_g } = row;
    return {
      from_g,
      to_g,
      from: writeLabelWeight(grams(from_g)),
      to: writeLabelWeight(grams(to_g)),
      over: 'no',
      through: 'no',
    };
  }
  const [from, to] = [pounds(row.from_lb), pounds(row.to_lb)];
  return {
    from_g: labelGrams(from) + (row.over ? 1 : 0),
    to_g: labelGrams(to) + (row.through ? 1 : 0),
    from: writeLabelWeight(from),
    to: writeLabelWeight(to),
    over: row.over ? 'yes' : 'no',
    through: row.through ? 'yes' : 'no',
  };
}

/** The row that holds a weight; undefined in a hole. */
export const rowFor = (rows: readonly WeightRow[], weight_g: number): WeightRow | undefined =>
  rows.find((row) => {
    const { from_g, to_g } = edgesOf(row);
    return weight_g >= from_g && weight_g < to_g;
  });
