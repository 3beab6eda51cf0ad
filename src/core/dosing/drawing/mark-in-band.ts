import type { Decimal } from 'decimal.js';
import { above, exactly, quotientText } from '../../quantity/exact.js';
import { microlitres } from '../../quantity/units.js';
import { writePerKg } from '../../quantity/write.js';
import { said } from '../../said.js';
import type { DoseQuestion } from '../dose-question.js';
import { type Drawn, floorAt, markText, volumeText } from '../draw-up.js';
import type { FormularyDocument, Product, Syringe } from '../formulary.js';
import { type Gate, gate } from '../gate.js';
import { leastAsked } from '../least.js';

/** One draw that no mark within the tolerance of its product measures. */
export interface Unmarked {
  /** Exact microlitres of one draw, and in how many places it goes. */
  readonly part: Decimal;
  readonly places: number;
  readonly grams: number | null;
  /** Of what is in the hand, mg per mL. */
  readonly strength: string | null;
  /** Most at one place, exact microlitres; null where the product names none. */
  readonly mostAtPlace: Decimal | null;
}

/**
 * The mark nearest to the exact volume that lies inside the limits of the product and over the least of its label, on a
 * syringe whose marks are fine enough for what is drawn; of two as near the one further inside the limits, then the smaller
 * syringe. Null where the formulary does not allow it, the product has no limits, or the mark would be a multiple of the dose that the
 * formulary calls another dose (both of its ends are out).
 */
export function markInBand(
  unmarked: Unmarked,
  { product, formulary }: Pick<DoseQuestion, 'product' | 'formulary'>,
  atHand: readonly Syringe[],
): { readonly drawn: Drawn; readonly gate: Gate } | null {
  const { part, grams, strength } = unmarked;
  const { marksInBand: rule } = formulary;
  const { band } = product;
  if (rule === null || band === null || grams === null || strength === null) return null;
  const ends = endsOf(unmarked, product, grams, strength);
  if (ends === null || above(ends.least, part) || above(part, ends.most)) return null;
  const allowed = (mark: Decimal, step: number): boolean => {
    if (above(ends.least, mark) || above(mark, ends.most)) return false;
    if (product.rounding === 'down' && above(mark, part)) return false;
    if (mark.lte(part.mul(rule.over)) || mark.gte(part.mul(rule.under))) return false;
    return fineEnough(mark, step, formulary);
  };
  let best: { readonly syringe: Syringe; readonly mark: Decimal } | null = null;
  for (const syringe of [...atHand].sort((a, b) => a.capacity_ul - b.capacity_ul || a.mark_ul - b.mark_ul)) {
    if (!syringe.routes.includes(product.route)) continue;
    for (let ul = syringe.mark_ul; ul <= syringe.capacity_ul; ul += syringe.mark_ul) {
      const mark = exactly(ul);
      if (mark.gte(part.mul(rule.under))) break;
      if (!allowed(mark, syringe.mark_ul)) continue;
      if (best === null || isBetter(mark, best.mark, part, ends)) best = { syringe, mark };
    }
  }
  if (best === null) return null;
  const { syringe, mark } = best;
  const drawn: Drawn = {
    syringe: syringe.id,
    syringeName: syringe.name,
    scale: syringe.scale,
    volume_ul: microlitres(mark.toNumber()),
    mark: markText(mark, syringe.scale),
    errorPercent: quotientText(mark.sub(part), part, 100, 2),
  };
  const perKg = (ul: Decimal): string => writePerKg(ul.mul(unmarked.places).mul(strength).div(grams));
  const why = said('dose.gate.mark-in-band', {
    exact: volumeText(part),
    mark: drawn.mark,
    is: perKg(mark),
    usual: perKg(part),
    low: writePerKg(band.low),
    high: writePerKg(band.high),
  });
  return { drawn, gate: gate('mark-in-band', rule.severity, why) };
}

interface Ends {
  readonly least: Decimal;
  readonly most: Decimal;
}

function isBetter(mark: Decimal, than: Decimal, part: Decimal, { least, most }: Ends): boolean {
  const nearer = mark.sub(part).abs().cmp(than.sub(part).abs());
  const inside = (one: Decimal): Decimal => {
    const [below, over] = [one.sub(least), most.sub(one)];
    return below.lt(over) ? below : over;
  };
  return nearer < 0 || (nearer === 0 && inside(mark).gt(inside(than)));
}

/** The least and the most of one draw, exact microlitres, by the limits of the product and the ends of its label. */
function endsOf({ places, mostAtPlace }: Unmarked, product: Product, grams: number, strength: string): Ends | null {
  const { band, stopAbove_mg_per_kg: end } = product;
  if (band === null) return null;
  const volume = (mgPerKg: string): Decimal => exactly(mgPerKg).mul(grams).div(strength).div(places);
  const asked = leastAsked(product, grams);
  const label = asked === null ? null : asked.by === 'mL' ? asked.amount : asked.amount.div(strength);
  const least = [volume(band.low), ...(label === null ? [] : [label.div(places)])];
  const most = [
    volume(band.high),
    ...(end === null ? [] : [volume(end)]),
    ...(mostAtPlace === null ? [] : [mostAtPlace]),
  ];
  const highest = (a: Decimal, b: Decimal): Decimal => (a.gt(b) ? a : b);
  const lowest = (a: Decimal, b: Decimal): Decimal => (a.lt(b) ? a : b);
  return { least: least.reduce(highest), most: most.reduce(lowest) };
}

/** Whether marks so far apart are fine enough for a volume, by the floors of the formulary. */
function fineEnough(mark: Decimal, step: number, { volumeFloors }: FormularyDocument): boolean {
  const floor = floorAt(mark, volumeFloors);
  if (floor === null) return true;
  return floor.severity !== 'stop' && (floor.maxMark_ul === null || step <= floor.maxMark_ul);
}
