import { above, exactly } from '../quantity/exact.js';
import { writePerKg } from '../quantity/write.js';
import { said } from '../said.js';
import { amountOf, countOf, isFar } from './amount.js';
import type { Dose } from './dose.js';
import { volumeText } from './draw-up.js';
import type { FormularyDocument, Product } from './formulary.js';
import { bySeverity, type Gate, gate } from './gate.js';
import { compareWithDose, perKgOfVolume, volumeAgainstLimits, type Worked } from './given.js';
import { edgesOf } from './label-weight.js';
import { siteLimit } from './split.js';

type Cat = Pick<Dose, 'grams' | 'otherStrength'>;

/**
 * A volume that somebody says was given, whole microlitres, against all that is known: the dose that was worked out, the
 * ends of the product, and what its places take in a day. Stops first; it never refuses the fact.
 */
export function judgeVolume(volume_ul: number, product: Product, formulary: FormularyDocument, dose: Worked): Gate[] {
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

/**
 * What a printed table or a rule by the volume gives, where the product has no band in mg per kg: half of it or less, or one
 * and a half times or more, is no such dose.
 */
function farFromRule(volume_ul: number, product: Product, grams: number): boolean {
  if (product.dose.by === 'order' || product.band !== null) return false;
  const answer = amountOf(product, grams);
  if (!answer.ok || answer.amount.ul === null) return false;
  return isFar(exactly(volume_ul).div(answer.amount.ul));
}

/** The weights an animal may have, whole grams: both ends alike where it was weighed. */
export interface Weights {
  readonly from_g: number;
  readonly to_g: number;
}

interface Vial {
  /** Strength of what was drawn, when it is not the product's own. */
  readonly otherStrength: string | null;
  /** In how many places it went in; null where that is not known, and then as many as it may have in a day. */
  readonly places: number | null;
}

/** Whether a volume is outside the limits of the product at every weight that the animal may have, whatever had been planned. */
export function outsideLimits(
  volume_ul: number,
  product: Product,
  formulary: FormularyDocument,
  { from_g, to_g }: Weights,
  { otherStrength, places }: Vial,
): boolean {
  const heaviest = { grams: to_g, otherStrength };
  if (volumeOverEnds(volume_ul, product, formulary, heaviest, places).length > 0) return true;
  const [least, most] = [from_g, to_g].map(
    (grams) => perKgOfVolume(volume_ul, product, { grams, otherStrength })?.mgPerKg ?? null,
  );
  const { band } = product;
  if (band !== null && most != null && above(exactly(most), band.high)) return true;
  if (band !== null && least != null && above(exactly(band.low), exactly(least))) return true;
  return farFromRule(volume_ul, product, from_g) && farFromRule(volume_ul, product, to_g);
}

/** What a number of pieces that somebody wrote down is worth. */
export type PiecesRead = 'inside' | 'outside' | 'unread' | 'not-in-pieces';

/**
 * Pieces as they were written, read strictly, against the table of the product at every weight that the animal may have and
 * its most in mg per kg. `ordered`: an order in words says how many, and only the most is asked. `unread`: no number of them.
 */
export function readPieces(text: string, product: Product, { from_g, to_g }: Weights, ordered: boolean): PiecesRead {
  const { dose } = product;
  const rows = dose.by === 'bands' ? dose.bands : dose.by === 'fixed' ? [dose] : [];
  if (!rows.some(({ pieces }) => pieces !== undefined)) return 'not-in-pieces';
  if (rows.some(({ pieces }) => pieces !== undefined && pieces.trim() === text.trim() && countOf(pieces) === null)) {
    return 'inside';
  }
  const count = countOf(text);
  if (count === null) return 'unread';
  const most = product.stopAbove_mg_per_kg;
  const tablet = product.ingredients[0]?.mg_per_piece ?? null;
  if (most !== null && tablet !== null && above(count.mul(exactly(tablet)).mul(1000).div(to_g), most)) return 'outside';
  if (ordered) return 'inside';
  const usual =
    dose.by === 'bands' ? dose.bands.filter((row) => edgesOf(row).from_g <= to_g && from_g < edgesOf(row).to_g) : rows;
  const counts = usual.flatMap(({ pieces }) => countOf(pieces ?? '') ?? []);
  return counts.some((one) => one.gte(count)) && counts.some((one) => one.lte(count)) ? 'inside' : 'outside';
}
