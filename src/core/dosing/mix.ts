import type { Decimal } from 'decimal.js';
import { exactly } from '../quantity/exact.js';
import type { Mix } from './measuring.js';

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
