import type { Decimal } from 'decimal.js';
import { above, exactly, wholeTimes } from '../quantity/exact.js';
import { said } from '../said.js';
import { volumeText } from './draw-up.js';
import type { FormularyDocument, Product } from './formulary.js';
import { type Gate, gate } from './gate.js';

/** Limits of one place for one animal, exact microlitres. */
export interface SiteLimit {
  readonly most_ul: Decimal;
  /** Above this and up to the most a larger volume is pointed out; null when only the most is known. */
  readonly good_ul: Decimal | null;
  /** Places a day. */
  readonly sites: number;
  /** True when the product names the limit itself: then the dose is split. */
  readonly own: boolean;
}

/** What is counted in doses and not in mg (vaccines) is one dose at one place, whatever the weight. */
const isWholeDose = (product: Product): boolean => product.ingredients.every((one) => one.mg_per_ml === null);

/** The limit at one place for this product and weight in grams, or null when none is stated. */
export function siteLimit(product: Product, formulary: FormularyDocument, grams: number | null): SiteLimit | null {
  const { perSite } = product;
  if (perSite !== null) {
    const byWeight =
      perSite.most_ml_per_kg === null || grams === null ? null : exactly(perSite.most_ml_per_kg).mul(grams);
    const flat = perSite.most_ml === null ? null : exactly(perSite.most_ml).mul(1000);
    const most = byWeight === null ? flat : flat === null || byWeight.lt(flat) ? byWeight : flat;
    return most === null ? null : { most_ul: most, good_ul: null, sites: perSite.sites, own: true };
  }
  if (grams === null || isWholeDose(product)) return null;
  const limit = formulary.routeLimits.find((one) => one.route === product.route);
  if (limit === undefined) return null;
  return {
    most_ul: exactly(limit.most_ml_per_kg).mul(grams),
    good_ul: exactly(limit.good_ml_per_kg).mul(grams),
    sites: limit.sites,
    own: false,
  };
}

/** In how many places a volume goes at this limit: at least 1. */
export function placesFor(ul: Decimal, most_ul: Decimal): number {
  if (most_ul.isZero()) return 1;
  const whole = wholeTimes(ul, most_ul);
  return Math.max(1, whole.toNumber() + (above(ul, whole.mul(most_ul)) ? 1 : 0));
}

/**
 * The product's own limit for one place, as a limit: for what has no amount of its own, and for an order in words, of which
 * no draw is worked out that could be split.
 */
export function placeLimitGates(
  product: Product,
  formulary: FormularyDocument,
  grams: number | null,
  inWords: boolean,
): Gate[] {
  if (product.dose.by !== 'order' && !inWords) return [];
  const limit = siteLimit(product, formulary, grams);
  if (limit === null || !limit.own) return [];
  const values = { product: product.name, most: volumeText(limit.most_ul), places: limit.sites };
  return [gate('limit-of-place', 'note', said('dose.gate.limit-of-place', values))];
}
