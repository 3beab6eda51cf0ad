import { exactly } from '../quantity/exact.js';
import type { Product } from './formulary.js';
import type { Caution, CautionFor } from './handling.js';
import { type AboutAnimal, hasReached } from './label-gates.js';

export const cautionText = (caution: Caution): string => (typeof caution === 'string' ? caution : caution.text);

export interface CautionsNow {
  /** What changes what the hand does. */
  readonly hand: readonly string[];
  readonly other: readonly string[];
}

/**
 * The cautions of a product that are for this animal. One whose condition cannot be told, because weight or age is not
 * known, is for it: only what is known to be about other animals is left out.
 */
export function cautionsFor(product: Product, animal: Pick<AboutAnimal, 'ageDays' | 'grams' | 'today'>): CautionsNow {
  const own = product.cautions.filter(
    (caution) => typeof caution === 'string' || caution.only === undefined || isFor(caution.only, product, animal),
  );
  const ofHand = (caution: Caution): boolean => typeof caution !== 'string' && caution.hand;
  return {
    hand: own.filter(ofHand).map(cautionText),
    other: own.filter((caution) => !ofHand(caution)).map(cautionText),
  };
}

/** Every part of the condition has to hold, or not be known. */
function isFor(only: CautionFor, product: Product, animal: Pick<AboutAnimal, 'ageDays' | 'grams' | 'today'>): boolean {
  const { underAge, under_g, tooMuch_ul } = only;
  if (underAge !== undefined && hasReached(underAge, animal.ageDays.youngest, animal.today)) return false;
  if (animal.grams === null) return true;
  if (under_g !== undefined && animal.grams >= under_g) return false;
  return tooMuch_ul === undefined || isTooMuch(tooMuch_ul, product, animal.grams);
}

/** Whether a volume is above the band's highest mg per kg for a weight; true where the band or the strength is not known. */
function isTooMuch(volume_ul: number, product: Product, grams: number): boolean {
  const strength = product.ingredients[0]?.mg_per_ml ?? null;
  if (strength === null || product.band === null) return true;
  // mg = µL x mg per mL / 1,000, and the most = mg per kg x g / 1,000: both sides times 1,000.
  return exactly(strength).mul(volume_ul).gt(exactly(product.band.high).mul(grams));
}
