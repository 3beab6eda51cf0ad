import type { Decimal } from 'decimal.js';
import { exactly } from '../quantity/exact.js';
import { gramsIn } from '../quantity/units.js';
import { writeNumber, writePerKg, writeStrength, writeVolume } from '../quantity/write.js';
import { type Said, type SayValue, said } from '../said.js';
import type { DoseRule, Product } from './formulary.js';

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
  | 'salt-and-base';

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
  if (grams === null) return problem('weight-missing', 'dose.gate.weight-missing', { product: product.name });
  switch (dose.by) {
    case 'bands': {
      const band = dose.bands.find((each) => grams >= each.from_g && grams < each.to_g);
      if (band === undefined) return betweenBands(product, dose, grams);
      const from = { grams: band.from_g };
      return ok(product, band, grams, said('dose.step.band', { from, to: { grams: band.to_g }, ...amountWords(band) }));
    }
    case 'ml-per-weight': {
      if (strength === null || !exactly(strength).eq(exactly(dose.forStrength_mg_per_ml))) {
        return problem('rule-for-another-strength', 'dose.gate.other-strength', {
          product: product.name,
          rule: writeStrength(dose.forStrength_mg_per_ml),
          is: strength === null ? '' : writeStrength(strength),
        });
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
    case 'mg-per-kg': {
      if (strength === null) return problem('strength-unknown', 'dose.gate.no-strength', { product: product.name });
      if (first !== undefined && first.counted !== dose.counted) {
        return problem('salt-and-base', 'dose.gate.salt-and-base', {
          product: product.name,
          dose: dose.counted,
          strength: first.counted,
        });
      }
      const ug = exactly(dose.usual).mul(grams);
      const amount = {
        ul: ug.div(exactly(strength)),
        ug,
        mgPerKg: exactly(dose.usual),
        pieces: '',
        rule: perKgRule(product, dose.usual, strength),
      };
      return { ok: true, amount };
    }
  }
}

const rules = new WeakMap<Product, { readonly strength: string; readonly rule: Said }>();
/** The rule in words: the same for every animal, so it is said once for a product as it is in the hand. */
function perKgRule(product: Product, usual: string, strength: string): Said {
  const known = rules.get(product);
  if (known?.strength === strength) return known.rule;
  const rule = said('dose.step.per-kg', { dose: writePerKg(usual), strength: writeStrength(strength) });
  rules.set(product, { strength, rule });
  return rule;
}

interface Given {
  readonly ml?: string | undefined;
  readonly pieces?: string | undefined;
}

function ok(product: Product, given: Given, grams: number | null, rule: Said): AmountAnswer {
  const ul = given.ml === undefined ? null : exactly(given.ml).mul(1000);
  const strength = product.ingredients[0]?.mg_per_ml ?? null;
  return { ok: true, amount: { ul, ...drugIn(ul, strength, grams), pieces: given.pieces ?? '', rule } };
}

function drugIn(ul: Decimal | null, strength: string | null, grams: number | null): Pick<Amount, 'ug' | 'mgPerKg'> {
  const ug = ul === null || strength === null ? null : ul.mul(exactly(strength));
  return { ug, mgPerKg: ug === null || grams === null ? null : ug.div(grams) };
}

function amountWords(given: Given): Record<string, SayValue> {
  if (given.ml !== undefined) return { amount: writeVolume(exactly(given.ml).mul(1000).toNumber()) };
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
  const below = dose.bands.filter((band) => band.to_g <= grams).sort((x, y) => y.to_g - x.to_g)[0];
  const above = dose.bands.filter((band) => band.from_g > grams).sort((x, y) => x.from_g - y.from_g)[0];
  const values = { product: product.name, weight: { grams } };
  if (below === undefined) return problem('between-bands', 'dose.gate.under-bands', values);
  if (above === undefined) return problem('between-bands', 'dose.gate.over-bands', values);
  return problem('between-bands', 'dose.gate.between-bands', {
    ...values,
    below: { grams: below.to_g },
    above: { grams: above.from_g },
  });
}

const problem = (code: AmountProblem, key: string, values: Record<string, SayValue>): AmountAnswer => ({
  ok: false,
  code,
  why: said(key, values),
});
