import { above, exactly, plain } from '../quantity/exact.js';
import { type Micrograms, wholeMicrograms } from '../quantity/units.js';
import { writeNumber, writePercent, writePerKg, writeVolume } from '../quantity/write.js';
import { said } from '../said.js';
import { isFar } from './amount.js';
import type { Dose } from './dose.js';
import type { Product } from './formulary.js';
import { type Gate, gate } from './gate.js';

/** What of a dose a volume is held against: a dose on record has no more than this. */
export type Worked = Pick<Dose, 'unrounded_ul' | 'exact_ul' | 'total_ul' | 'grams' | 'otherStrength' | 'stopped'>;

/**
 * Compares a volume somebody says they drew or gave, whole microlitres, with the dose. Null when it is the mark or
 * within `tolerancePercent` of the exact volume. What is far from it stops, anything else outside goes to a second person. It
 * never refuses the fact: what was given is recorded, with this beside it.
 */
export function compareWithDose(
  volume_ul: number,
  dose: Pick<Worked, 'unrounded_ul' | 'exact_ul' | 'total_ul'>,
  tolerancePercent: string,
): Gate | null {
  if (dose.unrounded_ul === null || volume_ul === dose.total_ul) return null;
  const exact = exactly(dose.unrounded_ul);
  if (exact.isZero()) return null;
  const ratio = exactly(volume_ul).div(exact);
  const percent = ratio.sub(1).mul(100);
  if (percent.abs().lte(tolerancePercent)) return null;
  const values = {
    given: { microlitres: volume_ul },
    dose: { microlitres: dose.total_ul ?? dose.exact_ul ?? 0 },
    times: writeNumber(ratio, 1),
    percent: writePercent(percent.abs(), 0),
  };
  if (isFar(ratio)) {
    return gate('not-the-dose', 'stop', said(ratio.gt(1) ? 'dose.gate.given-over' : 'dose.gate.given-under', values));
  }
  return gate('not-the-dose', 'second-person', said('dose.gate.given-off', values));
}

/** What a volume of the product as it is in the hand comes to; null where its strength is not known. */
export function perKgOfVolume(
  volume_ul: number,
  product: Product,
  { grams, otherStrength }: Pick<Dose, 'grams' | 'otherStrength'>,
): { readonly ug: Micrograms; readonly mgPerKg: string | null } | null {
  const strength = otherStrength ?? product.ingredients[0]?.mg_per_ml ?? null;
  if (strength === null) return null;
  const ug = exactly(volume_ul).mul(exactly(strength));
  return { ug: wholeMicrograms(ug), mgPerKg: grams === null ? null : plain(ug.div(grams), 4) };
}

/**
 * A volume that somebody says was given, where no dose was worked out, against the product's own limits in mg per kg.
 * Null inside them, or where there are none to hold it against.
 */
export function volumeAgainstLimits(
  volume_ul: number,
  product: Product,
  dose: Pick<Dose, 'grams' | 'otherStrength'>,
): Gate | null {
  const { band } = product;
  const is = perKgOfVolume(volume_ul, product, dose)?.mgPerKg ?? null;
  if (band === null || is === null) return null;
  const over = above(exactly(is), band.high);
  if (!over && !above(exactly(band.low), exactly(is))) return null;
  const values = {
    given: writeVolume(volume_ul),
    product: product.name,
    dose: writePerKg(is),
    low: writePerKg(band.low),
    high: writePerKg(band.high),
  };
  return gate('outside-band', 'stop', said(over ? 'dose.gate.volume-over' : 'dose.gate.volume-under', values));
}
