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

/**
 * What is drawn or given, whole, against the least that the label asks for: a mark under it is within the tolerance of the
 * product, and is said. Nothing where it is not known how much that is.
 */
export function leastGates(product: Product, grams: number | null, ul: Decimal | null, ug: Decimal | null): Gate[] {
  const { least } = product;
  if (least === null || grams === null) return [];
  const byVolume = least.unit.startsWith('mL');
  const is = byVolume ? ul : ug;
  if (is === null) return [];
  const asked = exactly(least.amount)
    .mul(1000 * grams)
    .div(exactly(gramsIn[least.unit.endsWith('lb') ? 'lb' : 'kg']));
  if (!above(asked, is)) return [];
  const text = (amount: Decimal): string => (byVolume ? volumeText(amount) : writeMass(amount.toNumber()));
  const values = { product: product.name, is: text(is), asked: text(asked), least: leastWords(least) };
  return [gate('under-least', 'note', said('dose.gate.under-least', values))];
}
