import { above, exactly } from '../quantity/exact.js';
import { writePerKg } from '../quantity/write.js';
import { said } from '../said.js';
import type { Dose } from './dose.js';
import { volumeText } from './draw-up.js';
import type { FormularyDocument, Product } from './formulary.js';
import { bySeverity, type Gate, gate } from './gate.js';
import { compareWithDose, perKgOfVolume, volumeAgainstLimits } from './given.js';
import { siteLimit } from './split.js';

type Cat = Pick<Dose, 'grams' | 'otherStrength'>;

/**
 * A volume that somebody says was given, whole microlitres, against all that is known: the dose that was worked out, the
 * ends of the product, and what its places take in a day. Stops first; it never refuses the fact.
 */
export function judgeVolume(volume_ul: number, product: Product, formulary: FormularyDocument, dose: Dose): Gate[] {
  const against = compareWithDose(volume_ul, dose, product.tolerancePercent);
  const without = dose.unrounded_ul === null || dose.stopped;
  return [
    ...(against === null ? [] : [against]),
    ...volumeOverEnds(volume_ul, product, formulary, dose),
    ...(without ? withoutDose(volume_ul, product, dose) : []),
  ].sort(bySeverity);
}

const withoutDose = (volume_ul: number, product: Product, cat: Cat): Gate[] => {
  const limits = volumeAgainstLimits(volume_ul, product, cat);
  return limits === null ? [] : [limits];
};

/** The most of this product on any animal, mg per kg, and the most that its places take in a day. */
function volumeOverEnds(
  volume_ul: number,
  product: Product,
  formulary: FormularyDocument,
  cat: Cat,
  places: number | null = null,
): Gate[] {
  const gates: Gate[] = [];
  const most = product.stopAbove_mg_per_kg;
  const is = perKgOfVolume(volume_ul, product, cat)?.mgPerKg ?? null;
  if (most !== null && is !== null && above(exactly(is), most)) {
    const values = { product: product.name, dose: writePerKg(is), high: writePerKg(most) };
    gates.push(gate('outside-band', 'stop', said('dose.gate.over-most', values)));
  }
  const place = siteLimit(product, formulary, cat.grams);
  if (place?.own && above(exactly(volume_ul), place.most_ul.mul(Math.min(places ?? place.sites, place.sites)))) {
    const values = {
      product: product.name,
      given: { microlitres: volume_ul },
      most: volumeText(place.most_ul),
      places: place.sites,
    };
    gates.push(gate('limit-of-place', 'stop', said('dose.gate.over-places', values)));
  }
  return gates;
}

/** What goes by the dose, whatever the weight: half of it or less, or one and a half times or more, is no such dose. */
function farFromFixed(volume_ul: number, { dose }: Product): boolean {
  if (dose.by !== 'fixed' || dose.ml === undefined) return false;
  const times = exactly(volume_ul).div(exactly(dose.ml).mul(1000));
  return times.gte('1.5') || times.lte('0.5');
}

/**
 * Whether a volume is outside the limits of the product for this animal, whatever had been planned. `places`: in how many
 * it went in; null where that is not known, and then as many as it may have in a day.
 */
export const outsideLimits = (
  volume_ul: number,
  product: Product,
  formulary: FormularyDocument,
  cat: Cat,
  places: number | null,
): boolean =>
  volumeOverEnds(volume_ul, product, formulary, cat, places).length > 0 ||
  withoutDose(volume_ul, product, cat).length > 0 ||
  farFromFixed(volume_ul, product);
