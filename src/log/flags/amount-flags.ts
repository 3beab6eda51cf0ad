import { asksForWeight, countOf, isFar, writePieces } from '../../core/dosing/amount.js';
import type { FormularyDocument, Product } from '../../core/dosing/formulary.js';
import type { GateCode } from '../../core/dosing/gate.js';
import { type Ordered, type OrderedAmount, orderedAmount, orderedSaid } from '../../core/dosing/ordered.js';
import { outsideLimits, readPieces, type Weights } from '../../core/dosing/written-amount.js';
import { believable } from '../../core/growth/weight-tables.js';
import { exactly } from '../../core/quantity/exact.js';
import { writeNumber } from '../../core/quantity/write.js';
import { type SayValue, said } from '../../core/said.js';
import { deskAndMedical, type Raise } from '../flag.js';
import type { LogRecord } from '../record.js';

/** A dose that went into an animal here, and what is on record to judge its amount by. */
interface GivenHere {
  readonly dose: LogRecord<'treatment-given'>;
  readonly product: Product;
  readonly formulary: FormularyDocument;
  /** The weight on record at the time; null where there was none. */
  readonly grams: number | null;
  /** What the order that it was given by says of the amount; null for a dose of the protocol. */
  readonly ordered: OrderedAmount | null;
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
  const byOrder = ordered !== null && ordered.is !== 'formulary';
  const read = pieces === '' ? null : readPieces(pieces, product, weights, byOrder);
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
  const figure = ordered?.is === 'figure' ? ordered : null;
  const against = figure === null ? null : againstOrder(figure, product, grams, dose.body);
  if (figure !== null && against !== null) {
    const given: SayValue = volume_ul === null ? writePieces(pieces) : { microlitres: volume_ul };
    const values = { ...named, given, times: against, ordered: orderedSaid(figure) };
    raise('given-not-as-ordered', 'stop', dose, deskAndMedical, values);
  }
  if (passed('outside-band') || (figure?.meant === true && against === null)) return;
  const vial = { otherStrength: strength_mg_per_ml, places: planned_ul === null ? null : places };
  const weight: SayValue = grams === null ? said('flag.weight-of-the-age') : { grams };
  if (volume_ul !== null && outsideLimits(volume_ul, product, formulary, weights, vial)) {
    raise('outside-limits', 'stop', dose, deskAndMedical, { ...named, given: { microlitres: volume_ul }, weight });
  } else if (read === 'outside') {
    raise('outside-limits', 'stop', dose, deskAndMedical, { ...named, given: writePieces(pieces), weight });
  }
}

/**
 * How many times the order a dose was, where that is half of it or less, or one and a half times or more; null where it is
 * not, or where nobody can say.
 */
function againstOrder(
  figure: Ordered,
  product: Product,
  grams: number | null,
  given: Pick<LogRecord<'treatment-given'>['body'], 'volume_ul' | 'pieces' | 'strength_mg_per_ml'>,
): string | null {
  const first = product.ingredients[0];
  const strength = given.strength_mg_per_ml ?? first?.mg_per_ml ?? null;
  const inHand = { ...product, ingredients: first === undefined ? [] : [{ ...first, mg_per_ml: strength }] };
  const answer = orderedAmount(figure, inHand as Product, grams);
  if (!answer.ok) return null;
  const { ul, pieces } = answer.amount;
  const count = given.volume_ul === null ? countOf(given.pieces) : exactly(given.volume_ul);
  const wanted = given.volume_ul === null ? countOf(pieces) : ul;
  if (count === null || wanted === null || wanted.isZero()) return null;
  const times = count.div(wanted);
  return isFar(times) ? writeNumber(times, 2) : null;
}

/** Whether the formulary itself gives an amount of it in pieces and by the volume. */
function givesBoth({ dose }: Product): boolean {
  const rows = dose.by === 'bands' ? dose.bands : dose.by === 'fixed' ? [dose] : [];
  return rows.some(({ ml, pieces }) => ml !== undefined && pieces !== undefined);
}
