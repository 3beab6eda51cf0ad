import type { Decimal } from 'decimal.js';
import { derived } from '../derived.js';
import { exactly } from '../quantity/exact.js';
import { gramsIn } from '../quantity/units.js';
import { writeNumber, writePerKg, writePerLb, writeStrength, writeVolume } from '../quantity/write.js';
import { type Said, type SayValue, said } from '../said.js';
import type { DoseRule, Product } from './formulary.js';
import { edgesOf, rowFor } from './label-weight.js';

/** The exact amount for one animal, before any mark of a syringe. Null where the product has no such figure. */
export interface Amount {
  readonly ul: Decimal | null;
  /** Of the ingredient named first. */
  readonly ug: Decimal | null;
  readonly mgPerKg: Decimal | null;
  /** Tablets or tubes as the formulary writes them, else empty. */
  readonly pieces: string;
  readonly rule: Said;
}

export type AmountAnswer =
  | { readonly ok: true; readonly amount: Amount }
  | { readonly ok: false; readonly code: AmountProblem; readonly why: Said };
export type AmountProblem =
  | 'weight-missing'
  | 'between-bands'
  | 'strength-unknown'
  | 'rule-for-another-strength'
  | 'salt-and-base'
  | 'amount-by-order'
  | 'not-in-quarters'
  | 'not-in-this-unit';

/** Whether this product's amount depends on the weight. */
export const asksForWeight = (product: Pick<Product, 'needsWeight' | 'dose'>): boolean =>
  product.needsWeight || product.dose.by !== 'fixed';

/**
 * The exact amount by the product's rule. mg per kg times grams is micrograms; micrograms over mg per mL is microlitres.
 * A weight in a hole between bands is asked about, a rule made for another strength or another moiety stops.
 */
export function amountOf(product: Product, grams: number | null): AmountAnswer {
  const { dose } = product;
  const first = product.ingredients[0];
  const strength = first?.mg_per_ml ?? null;
  if (dose.by === 'fixed') return ok(product, dose, grams, said('dose.step.fixed', amountWords(dose)));
  if (dose.by === 'order')
    return problem('amount-by-order', said('dose.gate.amount-by-order', { product: product.name }));
  if (grams === null) return problem('weight-missing', said('dose.gate.weight-missing', { product: product.name }));
  switch (dose.by) {
    case 'bands': {
      const band = rowFor(dose.bands, grams);
      if (band === undefined) return betweenBands(product, dose, grams);
      const { from, to, over, through } = edgesOf(band);
      return ok(product, band, grams, said('dose.step.band', { from, to, over, through, ...amountWords(band) }));
    }
    case 'ml-per-weight': {
      if (strength === null || !exactly(strength).eq(exactly(dose.forStrength_mg_per_ml))) {
        return problem(
          'rule-for-another-strength',
          said('dose.gate.other-strength', {
            product: product.name,
            rule: writeStrength(dose.forStrength_mg_per_ml),
            is: strength === null ? '' : writeStrength(strength),
          }),
        );
      }
      const ul = exactly(dose.ml)
        .mul(1000 * grams)
        .div(exactly(gramsIn[dose.per]));
      const rule = said('dose.step.per-weight', {
        volume: writeVolume(exactly(dose.ml).mul(1000).toNumber()),
        per: dose.per,
        strength: writeStrength(strength),
      });
      return { ok: true, amount: { ul, ...drugIn(ul, strength, grams), pieces: '', rule } };
    }
    case 'mg-per-kg':
    case 'mg-per-lb': {
      if (strength === null)
        return problem('strength-unknown', said('dose.gate.no-strength', { product: product.name }));
      if (first !== undefined && first.counted !== dose.counted) {
        return problem(
          'salt-and-base',
          said('dose.gate.salt-and-base', {
            product: product.name,
            dose: dose.counted,
            strength: first.counted,
          }),
        );
      }
      const perKg = perKgOf(dose.by, dose.usual);
      // One division, so that 2 lb of a rule by the pound come out as they are printed.
      const ug =
        dose.by === 'mg-per-kg'
          ? perKg.mul(grams)
          : exactly(dose.usual)
              .mul(1000 * grams)
              .div(gramsIn.lb);
      const amount = {
        ul: ug.div(exactly(strength)),
        ug,
        mgPerKg: perKg,
        pieces: '',
        rule: perWeightRule(product, dose.by, dose.usual, strength),
      };
      return { ok: true, amount };
    }
  }
}

type PerWeight = 'mg-per-kg' | 'mg-per-lb';
const perPound = exactly(1000).div(gramsIn.lb);
/** mg per kg of a rule in the unit of its label. */
export const perKgOf = (by: PerWeight, amount: string): Decimal =>
  by === 'mg-per-kg' ? exactly(amount) : exactly(amount).mul(perPound);

/** The rule in words: the same for every animal, so it is said once for a product as it is in the hand. */
const perWeightRule = derived((_product: Product, by: PerWeight, usual: string, strength: string): Said => {
  const dose = by === 'mg-per-kg' ? writePerKg(usual) : writePerLb(usual);
  return said('dose.step.per-kg', { dose, strength: writeStrength(strength) });
});

interface Fixed {
  readonly ml?: string | undefined;
  readonly g?: string | undefined;
  readonly pieces?: string | undefined;
}

function ok(product: Product, given: Fixed, grams: number | null, rule: Said): AmountAnswer {
  const ul = given.ml === undefined ? null : exactly(given.ml).mul(1000);
  const {
    mg_per_ml: strength = null,
    mg_per_piece: tablet = null,
    mg_per_g: ointment = null,
  } = product.ingredients[0] ?? {};
  const pieces = given.pieces ?? '';
  if (given.g !== undefined) {
    // So much drug in so many grams of ointment: no volume is worked out, since nobody says what a millilitre weighs.
    const drug = drugIn(exactly(given.g).mul(1000), ointment, grams);
    return { ok: true, amount: { ul: null, ...drug, pieces: pieces === '' ? `${given.g}\u00a0g` : pieces, rule } };
  }
  const count = ul === null && tablet !== null ? countOf(pieces) : null;
  const drug = count === null || tablet === null ? drugIn(ul, strength, grams) : drugIn(count.mul(1000), tablet, grams);
  return { ok: true, amount: { ul, ...drug, pieces, rule } };
}

/**
 * Whether an amount is so many times another that it is no such dose: half or less, or one and a half times or more (ours: a
 * tenfold slip and a swapped unit are far beyond it).
 */
export const isFar = (times: Decimal): boolean => times.gte('1.5') || times.lte('0.5');

/** How many pieces `1 1/2` or `1.5` are; null for what is no number of them (a ribbon of so many inches). */
export function countOf(pieces: string): Decimal | null {
  if (/^\d{1,6}\.\d{1,3}$/.test(pieces.trim())) return exactly(pieces.trim());
  const parts = /^(?:(\d{1,6})(?: |$))?(?:1\/([24]))?$/.exec(pieces.trim());
  if (parts === null || pieces.trim() === '') return null;
  return exactly(parts[1] ?? 0).add(parts[2] === undefined ? 0 : exactly(1).div(parts[2]));
}

function drugIn(ul: Decimal | null, strength: string | null, grams: number | null): Pick<Amount, 'ug' | 'mgPerKg'> {
  const ug = ul === null || strength === null ? null : ul.mul(exactly(strength));
  return { ug, mgPerKg: ug === null || grams === null ? null : ug.div(grams) };
}

function amountWords(given: Fixed): { readonly amount: SayValue } {
  if (given.ml !== undefined) return { amount: writeVolume(exactly(given.ml).mul(1000).toNumber()) };
  if (given.g !== undefined) return { amount: `${writeNumber(given.g)}\u00a0g` };
  return { amount: writePieces(given.pieces ?? '') };
}

/** Pieces in words: fractions are never written with a stroke (`1/2` is read as 12). */
export function writePieces(pieces: string): Said {
  const parts = /^(?:(\d+)\s+)?1\/([24])$/.exec(pieces.trim());
  if (parts === null) {
    const number = /^\d+(\.\d+)?$/.test(pieces);
    return said('dose.pieces', { n: number ? writeNumber(pieces) : pieces });
  }
  const part = parts[2] === '2' ? 'half' : 'quarter';
  return said('dose.pieces-part', { whole: Number(parts[1] ?? 0), part });
}

function betweenBands(product: Product, dose: Extract<DoseRule, { by: 'bands' }>, grams: number): AmountAnswer {
  const rows = dose.bands.map(edgesOf);
  const below = rows.filter((band) => band.to_g <= grams).sort((x, y) => y.to_g - x.to_g)[0];
  const above = rows.filter((band) => band.from_g > grams).sort((x, y) => x.from_g - y.from_g)[0];
  const values = { product: product.name, weight: { grams } };
  if (below === undefined) return problem('between-bands', said('dose.gate.under-bands', values));
  if (above === undefined) return problem('between-bands', said('dose.gate.over-bands', values));
  return problem(
    'between-bands',
    said('dose.gate.between-bands', {
      ...values,
      below: below.to,
      above: above.from,
    }),
  );
}

const problem = (code: AmountProblem, why: Said): AmountAnswer => ({ ok: false, code, why });
