import type { Decimal } from 'decimal.js';
import { above, exactly } from '../quantity/exact.js';
import { gramsIn } from '../quantity/units.js';
import { writeMass, writePerKg, writePerLb, writeVolume } from '../quantity/write.js';
import { said } from '../said.js';
import { volumeText } from './draw-up.js';
import type { Product } from './formulary.js';
import { type Gate, gate } from './gate.js';

type Least = NonNullable<Product['least']>;

/** As the label says it, in its own unit. */
function leastWords({ amount, unit }: Least): string {
  switch (unit) {
    case 'mg-per-kg':
      return writePerKg(amount);
    case 'mg-per-lb':
      return writePerLb(amount);
    case 'mL-per-kg':
    case 'mL-per-lb':
      return `${writeVolume(exactly(amount).mul(1000).toNumber())} per ${unit.slice(-2)}`;
  }
}

/** The least that the label asks for an animal, exact microlitres or micrograms; null where it asks none or has no weight. */
export function leastAsked(
  { least }: Product,
  grams: number | null,
): { readonly by: 'mL' | 'mg'; readonly amount: Decimal } | null {
  if (least === null || grams === null) return null;
  const amount = exactly(least.amount)
    .mul(1000 * grams)
    .div(exactly(gramsIn[least.unit.endsWith('lb') ? 'lb' : 'kg']));
  return { by: least.unit.startsWith('mL') ? 'mL' : 'mg', amount };
}

/**
 * What is drawn or given, whole, against the least that the label asks for: a mark under it is within the tolerance of the
 * product, and is said. Nothing where it is not known how much that is.
 */
export function leastGates(product: Product, grams: number | null, ul: Decimal | null, ug: Decimal | null): Gate[] {
  const { least } = product;
  const asks = leastAsked(product, grams);
  if (least === null || asks === null) return [];
  const byVolume = asks.by === 'mL';
  const is = byVolume ? ul : ug;
  if (is === null || !above(asks.amount, is)) return [];
  const text = (amount: Decimal): string => (byVolume ? volumeText(amount) : writeMass(amount.toNumber()));
  const values = { product: product.name, is: text(is), asked: text(asks.amount), least: leastWords(least) };
  return [gate('under-least', 'note', said('dose.gate.under-least', values))];
}
