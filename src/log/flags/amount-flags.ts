import { asksForWeight, writePieces } from '../../core/dosing/amount.js';
import type { FormularyDocument, Product } from '../../core/dosing/formulary.js';
import type { GateCode } from '../../core/dosing/gate.js';
import { outsideLimits, readPieces, type Weights } from '../../core/dosing/written-amount.js';
import { believable } from '../../core/growth/weight-tables.js';
import { type SayValue, said } from '../../core/said.js';
import type { LogRecord } from '../record.js';
import { deskAndMedical, type Raise } from './flag.js';

/** A dose that went into an animal here, and what is on record to judge its amount by. */
interface GivenHere {
  readonly dose: LogRecord<'treatment-given'>;
  readonly product: Product;
  readonly formulary: FormularyDocument;
  /** The weight on record at the time; null where there was none. */
  readonly grams: number | null;
  /** Its amount stands in the words of an order. */
  readonly ordered: boolean;
  readonly ageDays: { readonly youngest: number; readonly oldest: number };
}

/**
 * Whether anybody could have checked how much was given. The record judges: neither the weight nor the plan that came
 * with the dose does, for what made the slip made those too.
 */
export function amountFlags(
  { dose, product, formulary, grams, ordered, ageDays }: GivenHere,
  named: { readonly product: string },
  passed: (code: GateCode) => boolean,
  raise: Raise,
): void {
  const { volume_ul, pieces, strength_mg_per_ml, planned_ul, places, round } = dose.body;
  const weights: Weights = grams === null ? believable(ageDays) : { from_g: grams, to_g: grams };
  if (grams === null && asksForWeight(product)) raise('given-no-weight', 'stop', dose, deskAndMedical, named);
  const read = pieces === '' ? null : readPieces(pieces, product, weights, ordered);
  const isKnown = volume_ul !== null || read === 'inside' || read === 'outside';
  // Of a round, all doses without any amount are told in one flag (`flagsOfDoses`).
  if (!isKnown && (pieces !== '' || round === null)) {
    const code = pieces === '' ? 'given-no-amount' : 'given-amount-unread';
    raise(code, 'attention', dose, deskAndMedical, { ...named, written: pieces });
  }
  if (volume_ul !== null && pieces !== '' && !givesBoth(product)) {
    const both = { written: pieces, given: { microlitres: volume_ul } };
    raise('given-two-units', 'attention', dose, deskAndMedical, { ...named, ...both });
  }
  if (passed('outside-band')) return;
  const vial = { otherStrength: strength_mg_per_ml, places: planned_ul === null ? null : places };
  const weight: SayValue = grams === null ? said('flag.weight-of-the-age') : { grams };
  if (volume_ul !== null && outsideLimits(volume_ul, product, formulary, weights, vial)) {
    raise('outside-limits', 'stop', dose, deskAndMedical, { ...named, given: { microlitres: volume_ul }, weight });
  } else if (read === 'outside') {
    raise('outside-limits', 'stop', dose, deskAndMedical, { ...named, given: writePieces(pieces), weight });
  }
}

/** Whether the formulary itself gives an amount of it in pieces and by the volume. */
function givesBoth({ dose }: Product): boolean {
  const rows = dose.by === 'bands' ? dose.bands : dose.by === 'fixed' ? [dose] : [];
  return rows.some(({ ml, pieces }) => ml !== undefined && pieces !== undefined);
}
