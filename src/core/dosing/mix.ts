import type { Decimal } from 'decimal.js';
import { exactly } from '../quantity/exact.js';
import type { Mix } from './measuring.js';

/**
 * Millilitres in one of each unit in which mixtures are written, exact. US gallon: 231 cubic inches of 2.54 cm; fluid
 * ounce: a 128th of it (UCUM 2.2, [gal_us] and [foz_us]). A fluid ounce is a volume; an ounce is a mass.
 */
export const millilitresIn = { mL: '1', L: '1000', 'fl oz': '29.5735295625', gal: '3785.411784' } as const;
export type VolumeUnit = keyof typeof millilitresIn;

/** A volume in millilitres, exact. */
export const inMillilitres = (amount: string, unit: VolumeUnit): Decimal => exactly(amount).mul(millilitresIn[unit]);

/** Millilitres of concentrate in one litre of finished mixture, from how a source writes it; exact to 60 digits. */
export const perLitre = (stock: Decimal, finished: Decimal): Decimal => stock.mul(1000).div(finished);

export interface MixAmounts {
  /** Exact millilitres. */
  readonly stock_ml: Decimal;
  readonly diluent_ml: Decimal;
  readonly finished_ml: Decimal;
}

/** How much concentrate and how much diluent make so many millilitres of finished mixture; exact. */
export function mixFor(mix: Pick<Mix, 'stock_ml' | 'finished_ml'>, wanted_ml: string | number): MixAmounts {
  const finished_ml = exactly(wanted_ml);
  const stock_ml = finished_ml.mul(mix.stock_ml).div(mix.finished_ml);
  return { stock_ml, diluent_ml: finished_ml.sub(stock_ml), finished_ml };
}

/** A weaker strength from a stronger stock: parts by volume. Both strengths in the same unit; weaker must be weaker. */
export function weaken(stock: string, wanted: string, finished_ml: string): MixAmounts | null {
  if (exactly(wanted).gt(stock) || exactly(stock).isZero()) return null;
  return mixFor({ stock_ml: wanted, finished_ml: stock }, finished_ml);
}
