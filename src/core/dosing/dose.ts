import type { Decimal } from 'decimal.js';
import type { CalendarDate } from '../calendar.js';
import type { ProductId, SourceId, SyringeId } from '../ids.js';
import { exactly, plain } from '../quantity/exact.js';
import { type Micrograms, type Microlitres, wholeMicrograms, wholeMicrolitres } from '../quantity/units.js';
import { writeNumber, writePerKg } from '../quantity/write.js';
import { type Said, said } from '../said.js';
import { type Amount, amountOf, asksForWeight, writePieces } from './amount.js';
import { type Drawn, drawUp, volumeText } from './draw-up.js';
import type { FormularyDocument, Product, VolumeFloor } from './formulary.js';
import { bySeverity, type Gate, gate, stops } from './gate.js';
import {
  type AboutAnimal,
  currentOrder,
  type LotForDose,
  labelGates,
  lotGates,
  openedOr,
  speciesGates,
} from './label-gates.js';
import { type WeighingForDose, weightFresh } from './weight-fresh.js';

export interface DoseQuestion {
  readonly product: Product;
  readonly formulary: FormularyDocument;
  /** The last weighing of the animal, or null. */
  readonly weighing: WeighingForDose | null;
  /** Age in whole days: the youngest and the oldest the animal may be. */
  readonly ageDays: { readonly youngest: number; readonly oldest: number };
  readonly today: CalendarDate;
  /** Instant, UTC text: how old the weight is. */
  readonly now: string;
  /** Syringes within reach, ids of the formulary. */
  readonly syringes: readonly SyringeId[];
  readonly lot?: LotForDose | null;
  readonly species?: string;
}

/** One line of the reasoning, with the source it rests on. */
export interface DoseStep {
  readonly what: Said;
  readonly source: SourceId | null;
}

export interface Dose {
  readonly product: ProductId;
  readonly grams: number | null;
  /** Whole microlitres for showing; the mark was found from `unrounded_ul`. Null for pieces or without an amount. */
  readonly exact_ul: Microlitres | null;
  readonly exact_ug: Micrograms | null;
  /** Exact volume, plain decimal text, up to six decimals of a microlitre. */
  readonly unrounded_ul: string | null;
  /** mg of the first ingredient per kg, of the exact amount; up to four decimals, plain text. */
  readonly mgPerKg: string | null;
  /** Tablets or tubes, else null. */
  readonly pieces: Said | null;
  readonly drawn: Drawn | null;
  /** mg per kg of what is drawn. */
  readonly drawnMgPerKg: string | null;
  /** Stops first. */
  readonly gates: readonly Gate[];
  /** True when a gate stops; the figures are then for explaining, not for drawing. */
  readonly stopped: boolean;
  readonly trace: readonly DoseStep[];
}

/**
 * Works out the dose of a product for one animal: exact amount, syringe and mark, every gate in the way and the
 * reasoning. Never throws for what people can get wrong; a wrong species or a harmful ingredient gives no figure at all.
 */
export function doseOf(question: DoseQuestion): Dose {
  const { product, formulary, weighing, today } = question;
  const animal: AboutAnimal = {
    species: question.species ?? 'cat',
    ageDays: question.ageDays,
    grams: weighing?.grams ?? null,
    today,
  };
  const never = speciesGates(product, formulary, animal.species);
  if (never.length > 0) return finish(product, animal, never, null, null, []);

  const gates = [
    ...lotGates(product, question.lot ?? null, today),
    ...labelGates(product, formulary, animal),
    ...weightGates(question),
  ];
  const answer = amountOf(product, animal.grams);
  if (!answer.ok) {
    if (!gates.some((each) => each.code === answer.code)) gates.push(gate(answer.code, 'stop', answer.why));
    return finish(product, animal, gates, null, null, []);
  }
  const { amount } = answer;
  gates.push(...bandGates(product, formulary, animal, amount));
  const trace = [...amountSteps(product, animal, amount)];
  let drawn: Drawn | null = null;
  // A pipette or tablet is its own measure; only what is drawn needs a syringe.
  if (amount.ul !== null && amount.pieces === '') {
    const drawing = draw(question, amount.ul, animal.grams);
    gates.push(...drawing.gates);
    drawn = drawing.drawn;
    if (drawn !== null) trace.push(drawStep(drawn, amount.ul, product));
  }
  return finish(product, animal, gates, amount, drawn, trace);
}

function finish(
  product: Product,
  animal: AboutAnimal,
  gates: readonly Gate[],
  amount: Amount | null,
  drawn: Drawn | null,
  trace: readonly DoseStep[],
): Dose {
  const strength = product.ingredients[0]?.mg_per_ml ?? null;
  const drawnMgPerKg =
    drawn === null || strength === null || animal.grams === null
      ? null
      : plain(exactly(drawn.volume_ul).mul(strength).div(animal.grams), 4);
  const ul = amount?.ul ?? null;
  const ug = amount?.ug ?? null;
  const mgPerKg = amount?.mgPerKg ?? null;
  return {
    product: product.id,
    grams: animal.grams,
    exact_ul: ul === null ? null : wholeMicrolitres(ul),
    exact_ug: ug === null ? null : wholeMicrograms(ug),
    unrounded_ul: ul === null ? null : plain(ul, 6),
    mgPerKg: mgPerKg === null ? null : plain(mgPerKg, 4),
    pieces: amount === null || amount.pieces === '' ? null : writePieces(amount.pieces),
    drawn,
    drawnMgPerKg,
    gates: [...gates].sort(bySeverity),
    stopped: stops(gates),
    trace,
  };
}

function weightGates({ product, formulary, weighing, ageDays, now }: DoseQuestion): Gate[] {
  if (weighing === null) {
    if (!asksForWeight(product) && product.labelMin_g === null) return [];
    return [gate('weight-missing', 'stop', said('dose.gate.weight-missing', { product: product.name }))];
  }
  if (!asksForWeight(product)) return [];
  const gates: Gate[] = [];
  const freshness = weightFresh(weighing, ageDays, formulary, now);
  if (!freshness.fresh) gates.push(gate('weight-stale', 'stop', freshness.why));
  if (weighing.doubtful) {
    const why = said('dose.gate.weight-doubtful', { weight: { grams: weighing.grams } });
    gates.push(gate('weight-doubtful', 'stop', why));
  }
  return gates;
}

/**
 * mg per kg outside the product's own band. A dose worked out from the weight stops; a printed band or fixed amount on a
 * very small animal is the label's own figure and goes to a second person. Limits belong to each product: 5 and 90 mg
 * per kg are both right somewhere.
 */
function bandGates(product: Product, formulary: FormularyDocument, animal: AboutAnimal, amount: Amount): Gate[] {
  const { band } = product;
  if (band === null || amount.mgPerKg === null) return [];
  const over = amount.mgPerKg.gt(band.high);
  if (!over && amount.mgPerKg.gte(band.low)) return [];
  const why = said(over ? 'dose.gate.over-band' : 'dose.gate.under-band', {
    product: product.name,
    dose: writePerKg(amount.mgPerKg),
    low: writePerKg(band.low),
    high: writePerKg(band.high),
  });
  const printed = product.dose.by === 'bands' || product.dose.by === 'fixed';
  if (printed) return [gate('outside-band', 'second-person', why)];
  return [openedOr('outside-band', why, currentOrder('other-dose-than-label', product, formulary, animal))];
}

function draw(question: DoseQuestion, ul: Decimal, grams: number | null): { drawn: Drawn | null; gates: Gate[] } {
  const { product, formulary, syringes } = question;
  const gates: Gate[] = [];
  const floor = floorAt(ul, formulary.volumeFloors);
  if (floor !== null) {
    const key = {
      note: 'dose.gate.small-note',
      'second-person': 'dose.gate.small-second',
      stop: 'dose.gate.small-stop',
    };
    const values = { volume: volumeText(ul), floor: { microlitres: floor.below_ul } };
    gates.push(gate('small-volume', floor.severity, said(key[floor.severity], values)));
  }
  const drawing = drawUp(
    ul,
    {
      route: product.route,
      rounding: product.rounding,
      tolerancePercent: product.tolerancePercent,
      ceiling_ul: ceilingOf(product, grams, ul),
      maxMark_ul: floor?.maxMark_ul ?? null,
    },
    formulary.syringes.filter((syringe) => syringes.includes(syringe.id)),
    formulary.syringes,
  );
  if (drawing.ok) return { drawn: drawing.drawn, gates };
  return { drawn: null, gates: [...gates, gate('no-syringe', 'stop', drawing.why)] };
}

/** The lowest floor above the exact volume, or null. */
export function floorAt(ul: Decimal | number, floors: readonly VolumeFloor[]): VolumeFloor | null {
  const under = floors.filter((floor) => exactly(ul).lt(floor.below_ul));
  return under.sort((a, b) => a.below_ul - b.below_ul)[0] ?? null;
}

/** Most microlitres that stay inside the band; an exact volume already above it is its own ceiling. */
function ceilingOf(product: Product, grams: number | null, ul: Decimal): Decimal | null {
  const strength = product.ingredients[0]?.mg_per_ml ?? null;
  if (product.band === null || strength === null || grams === null) return null;
  const ceiling = exactly(product.band.high).mul(grams).div(strength);
  return ceiling.lt(ul) ? ul : ceiling;
}

function amountSteps(product: Product, animal: AboutAnimal, amount: Amount): DoseStep[] {
  const steps: DoseStep[] = [];
  if (animal.grams !== null && asksForWeight(product)) {
    steps.push({ what: said('dose.step.weight', { weight: { grams: animal.grams } }), source: null });
  }
  steps.push({ what: amount.rule, source: product.source });
  if (amount.ug !== null) {
    const drug = { micrograms: wholeMicrograms(amount.ug) as number };
    const perKg = amount.mgPerKg === null ? '' : writePerKg(amount.mgPerKg);
    const ingredient = product.ingredients[0]?.name ?? product.name;
    const what = said(perKg === '' ? 'dose.step.drug' : 'dose.step.drug-per-kg', { drug, perKg, ingredient });
    steps.push({ what, source: null });
  }
  if (amount.ul !== null) {
    steps.push({ what: said('dose.step.volume', { volume: volumeText(amount.ul) }), source: null });
  }
  return steps;
}

function drawStep(drawn: Drawn, exact_ul: Decimal, product: Product): DoseStep {
  const what = said('dose.step.mark', {
    mark: drawn.mark,
    scale: drawn.scale,
    syringe: drawn.syringeName,
    volume: { microlitres: drawn.volume_ul },
    exact: volumeText(exact_ul),
    percent: writeNumber(exactly(drawn.errorPercent).abs(), 2),
    way: exactly(drawn.errorPercent).isZero() ? 'even' : exactly(drawn.errorPercent).isNegative() ? 'under' : 'over',
    tolerance: writeNumber(product.tolerancePercent),
  });
  return { what, source: null };
}
