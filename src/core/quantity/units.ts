import type { Decimal } from 'decimal.js';
import { exactly, halfDown } from './exact.js';

declare const unit: unique symbol;
type Quantity<U extends string> = number & { readonly [unit]: U };

/** Body weight, whole grams. */
export type Grams = Quantity<'g'>;
/** Volume, whole microlitres. */
export type Microlitres = Quantity<'uL'>;
/** Mass of a drug, whole micrograms. */
export type Micrograms = Quantity<'ug'>;

function whole<U extends string>(value: number, name: string): Quantity<U> {
  if (!Number.isSafeInteger(value) || value < 0) throw new RangeError(`${value} is not a whole number of ${name}`);
  return value as Quantity<U>;
}

/** Whole grams, 0 or more. Throws RangeError otherwise: callers read people's input with `readWeight`. */
export const grams = (value: number): Grams => whole(value, 'grams');
/** Whole microlitres, 0 or more. Throws RangeError otherwise. */
export const microlitres = (value: number): Microlitres => whole(value, 'microlitres');
/** Whole micrograms, 0 or more. Throws RangeError otherwise. */
export const micrograms = (value: number): Micrograms => whole(value, 'micrograms');

export const weightUnits = ['g', 'kg', 'lb', 'oz'] as const;
export type WeightUnit = (typeof weightUnits)[number];

/**
 * Grams in one of each unit, exact. Pound: 0.45359237 kg by the 1959 agreement, as in UCUM 2.2 ([lb_av] = 7000 [gr],
 * [gr] = 64.79891 mg); ounce: a sixteenth of it.
 */
export const gramsIn: Readonly<Record<WeightUnit, string>> = {
  g: '1',
  kg: '1000',
  lb: '453.59237',
  oz: '28.349523125',
};

/** An amount of a unit in grams, exact and not rounded. */
export const inGrams = (amount: string | number | Decimal, of: WeightUnit): Decimal =>
  of === 'g' ? exactly(amount) : exactly(amount).mul(gramsIn[of]);

/** Grams in a unit, not rounded (60 digits when the quotient does not end). */
export const fromGrams = (weight: number | Decimal, to: WeightUnit): Decimal => exactly(weight).div(gramsIn[to]);

/** Exact grams to whole grams, half-way down. */
export const wholeGrams = (exact: Decimal): Grams => grams(halfDown(exact));

/** Exact microlitres to whole microlitres for writing; marks are found from the exact value, never from this one. */
export const wholeMicrolitres = (exact: Decimal): Microlitres => microlitres(halfDown(exact));

/** Exact micrograms to whole micrograms for writing. */
export const wholeMicrograms = (exact: Decimal): Micrograms => micrograms(halfDown(exact));
