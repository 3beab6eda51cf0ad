import type { Decimal } from 'decimal.js';
import type { ProductId, SourceId } from '../ids.js';
import { above, exactly, plain, quotientText } from '../quantity/exact.js';
import {
  type Micrograms,
  type Microlitres,
  microlitres,
  wholeMicrograms,
  wholeMicrolitres,
} from '../quantity/units.js';
import { writeNumber, writePerKg, writeStrength, writeVolume } from '../quantity/write.js';
import { type Said, said } from '../said.js';
import { type Amount, amountOf, asksForWeight, countOf, isFar, writePieces } from './amount.js';
import { conditionGates, conditionsFound } from './conditions.js';
import { courseGates } from './course.js';
import type { DoseQuestion } from './dose-question.js';
import { type Drawn, volumeText } from './draw-up.js';
import { type Drawing, dilutionsThatHelp, draw } from './drawing/draw.js';
import type { FormularyDocument, Product } from './formulary.js';
import { bySeverity, type Gate, gate, stops } from './gate.js';
import type { Measuring } from './instrument.js';
import {
  type AboutAnimal,
  currentOrder,
  hasReached,
  labelGates,
  lotGates,
  openedByWord,
  openedOr,
  roleGates,
  speciesGates,
} from './label-gates.js';
import { leastGates } from './least.js';
import { isPerWeight, type Ordered, orderedAmount, orderedSaid } from './ordered.js';
import { notThisWayGates, spacingGates } from './spacing.js';
import { placeLimitGates } from './split.js';
import { inHand } from './strength.js';
import { weightFresh } from './weight-fresh.js';

/** One line of the reasoning, with the source it rests on. */
export interface DoseStep {
  readonly what: Said;
  readonly source: SourceId | null;
}

export interface Dose {
  readonly product: ProductId;
  readonly grams: number | null;
  /** The amount as a veterinarian's order words it; then no figure of this dose is worked out. */
  readonly inWords: string | null;
  /** The figure of the order that it was worked out from, in a sentence; null where the formulary's own amount counts. */
  readonly byOrder: Said | null;
  /** Whole microlitres for showing; the mark was found from `unrounded_ul`. Null for pieces or without an amount. */
  readonly exact_ul: Microlitres | null;
  readonly exact_ug: Micrograms | null;
  /** Exact volume, plain decimal text, up to six decimals of a microlitre. */
  readonly unrounded_ul: string | null;
  /** mg of the first ingredient per kg, of the exact amount; up to four decimals, plain text. */
  readonly mgPerKg: string | null;
  /** Tablets or tubes, else null. */
  readonly pieces: Said | null;
  /** Strength of what is in the hand, mg per mL, where it is not the product's own, stopped or not; else null. */
  readonly otherStrength: string | null;
  /** One draw; with `places` above 1 it is drawn so many times, once for each place on the animal. */
  readonly drawn: Drawn | null;
  readonly places: number;
  /** All that is drawn: `places` times one draw. */
  readonly total_ul: Microlitres | null;
  /** Drug of the first ingredient in all that is drawn; null when nothing is drawn or it has no strength. */
  readonly drawn_ug: Micrograms | null;
  /** How exact one draw is; null when nothing is drawn or the formulary names no tolerance. */
  readonly measuring: Measuring | null;
  /** Recipe by which it is diluted before drawing, or null. */
  readonly dilution: string | null;
  /** Recipes of the signed formulary that would make a volume that cannot be measured large enough. */
  readonly dilutionsThatHelp: readonly string[];
  /** mg per kg of all that is drawn. */
  readonly drawnMgPerKg: string | null;
  /** Stops first. */
  readonly gates: readonly Gate[];
  /** True when a gate stops; the figures are then for explaining, not for drawing. */
  readonly stopped: boolean;
  readonly trace: readonly DoseStep[];
}

/**
 * Works out the dose of a product for one animal: exact amount, syringe and mark, every gate in the way and the
 * reasoning. Never throws for what people can get wrong; a harmful ingredient gives no figure at all, a wrong species
 * none before a named veterinarian's word.
 */
export function doseOf(question: DoseQuestion): Dose {
  const { formulary, weighing, today, now, recent = [], ordered = null } = question;
  const animal: AboutAnimal = {
    species: question.species ?? 'cat',
    ageDays: question.ageDays,
    grams: weighing?.grams ?? null,
    today,
  };
  // Until a veterinarian's word opens the species there is no figure; what harms cats is opened by nobody.
  const made = speciesGates(question.product, formulary, animal.species);
  const left = openedByWord(made, question.product, question.opened ?? [], today);
  if (stops(left)) return finish(question, animal, made, nothing);

  const hand = inHand(question);
  const { product } = hand;
  const strength = hand.dilution?.gives_mg_per_ml ?? product.ingredients[0]?.mg_per_ml ?? null;
  const unworked: Worked = { ...nothing, strength };
  const oldEnough = (least: Parameters<typeof hasReached>[0]): boolean =>
    hasReached(least, animal.ageDays.youngest, today);
  const gates = [
    ...made,
    ...roleGates(product, question.role),
    ...hand.gates,
    ...lotGates(product, question.lot ?? null, today),
    ...labelGates(product, formulary, animal),
    ...(question.about === undefined ? [] : conditionGates(conditionsFound(product.conditions, question.about))),
    ...notThisWayGates(product, formulary, oldEnough, hand.dilution?.gives_mg_per_ml ?? null),
    ...weightGates(question),
    ...spacingGates(product, formulary, recent, now),
    ...placeLimitGates(product, formulary, animal.grams, ordered?.is === 'words'),
  ];
  // The course of the formulary is not the order's; how much a day and how many days in a row still hold.
  const inCourse = ordered === null || ordered.is === 'formulary' ? product : { ...product, course: null };
  if (ordered?.is === 'words') {
    // Whoever may not choose asks who may; on paper and lists, which are nobody's, the words say it.
    if (ordered.chosenBy === 'medical' && question.role !== undefined && question.role !== 'medical') {
      gates.push(gate('not-yours-to-give', 'stop', said('dose.gate.not-yours-to-choose', { product: product.name })));
    }
    gates.push(...courseGates(inCourse, recent, now, animal.grams, null));
    return finish(question, animal, gates, unworked);
  }
  const figure = ordered?.is === 'figure' ? ordered : null;
  const answer = figure === null ? amountOf(product, animal.grams) : orderedAmount(figure, product, animal.grams);
  if (!answer.ok) {
    const known = gates.some((each) => each.code === answer.code || each.code === 'not-made-up');
    const silent = answer.code === 'amount-by-order' && ordered !== null;
    const why = silent ? said('dose.gate.order-without-amount', { product: product.name }) : answer.why;
    if (!known) gates.push(gate(answer.code, 'stop', why));
    return finish(question, animal, gates, unworked);
  }
  const { amount } = answer;
  gates.push(...courseGates(inCourse, recent, now, animal.grams, amount.ug?.toFixed() ?? null));
  gates.push(...bandGates(product, formulary, animal, amount, figure));
  // A pipette or tablet is its own measure; only what is drawn needs a syringe.
  if (amount.ul === null || amount.pieces !== '') {
    gates.push(...leastGates(product, animal.grams, amount.ul, amount.ug));
    return finish(question, animal, gates, {
      ...unworked,
      amount,
      steps: amountSteps(product, animal, amount, figure !== null),
    });
  }
  const ul = hand.dilution === null || amount.ug === null ? amount.ul : amount.ug.div(hand.dilution.gives_mg_per_ml);
  const inTheHand = { ...question, product };
  const drawing = draw(inTheHand, ul, animal.grams, strength);
  gates.push(...drawing.gates);
  const whole = drawing.drawn === null ? null : exactly(drawing.drawn.volume_ul).mul(drawing.places);
  gates.push(
    ...leastGates(product, animal.grams, whole, whole === null || strength === null ? null : whole.mul(strength)),
  );
  const steps = amountSteps(
    product,
    animal,
    { ...amount, ul },
    figure !== null,
    hand.dilution?.gives_mg_per_ml ?? null,
  );
  if (drawing.drawn !== null) steps.push(...drawSteps(drawing, ul, product, formulary));
  const helps = drawing.drawn === null || stops(drawing.gates) ? dilutionsThatHelp(inTheHand, amount.ug) : [];
  return finish(question, animal, gates, { amount: { ...amount, ul }, drawing, steps, strength, helps });
}

interface Worked {
  readonly amount: Amount | null;
  readonly drawing: Drawing | null;
  readonly steps: readonly DoseStep[];
  /** Of what is in the hand, mg per mL. */
  readonly strength: string | null;
  readonly helps: readonly string[];
}
const nothing: Worked = { amount: null, drawing: null, steps: [], strength: null, helps: [] };

function finish(question: DoseQuestion, animal: AboutAnimal, found: readonly Gate[], worked: Worked): Dose {
  const { product, opened = [], today, ordered = null } = question;
  const { amount, drawing, strength } = worked;
  const drawn = drawing?.drawn ?? null;
  const places = drawing?.places ?? 1;
  const total = drawn === null ? null : drawn.volume_ul * places;
  const drawnMgPerKg =
    total === null || strength === null || animal.grams === null
      ? null
      : quotientText(exactly(strength), exactly(animal.grams), total, 4);
  const ul = amount?.ul ?? null;
  const ug = amount?.ug ?? null;
  const mgPerKg = amount?.mgPerKg ?? null;
  const gates = openedByWord(found, product, opened, today).sort(bySeverity);
  return {
    product: product.id,
    grams: animal.grams,
    inWords: ordered?.is === 'words' ? ordered.words : null,
    byOrder: ordered?.is === 'figure' ? orderedSaid(ordered) : null,
    exact_ul: ul === null ? null : wholeMicrolitres(ul),
    exact_ug: ug === null ? null : wholeMicrograms(ug),
    unrounded_ul: ul === null ? null : plain(ul, 6),
    mgPerKg: mgPerKg === null ? null : plain(mgPerKg, 4),
    pieces: amount === null || amount.pieces === '' ? null : writePieces(amount.pieces),
    otherStrength: strength === null || isOwn(product, strength) ? null : strength,
    drawn,
    places,
    total_ul: total === null ? null : microlitres(total),
    drawn_ug: total === null || strength === null ? null : wholeMicrograms(exactly(strength).mul(total)),
    measuring: drawing?.measuring ?? null,
    dilution: question.dilution ?? null,
    dilutionsThatHelp: worked.helps,
    drawnMgPerKg,
    gates,
    stopped: stops(gates),
    trace: worked.steps,
  };
}

const isOwn = (product: Product, strength: string): boolean =>
  product.ingredients[0]?.mg_per_ml === strength || exactly(strength).eq(product.ingredients[0]?.mg_per_ml ?? -1);

function weightGates({ product, formulary, weighing, ageDays, now, ordered = null }: DoseQuestion): Gate[] {
  const asks =
    asksForWeight(product) ||
    (ordered?.is === 'figure' && isPerWeight(ordered.dose)) ||
    product.conditions.some((one) => one.is === 'weight' && one.does !== 'show');
  if (weighing === null) {
    if (!asks && product.labelMinWeight === null) return [];
    return [gate('weight-missing', 'stop', said('dose.gate.weight-missing', { product: product.name }))];
  }
  if (!asks) return [];
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
function bandGates(
  product: Product,
  formulary: FormularyDocument,
  animal: AboutAnimal,
  amount: Amount,
  figure: Ordered | null,
): Gate[] {
  const { band, stopAbove_mg_per_kg: most } = product;
  if (amount.mgPerKg !== null && most !== null && above(amount.mgPerKg, most)) {
    const values = { product: product.name, dose: writePerKg(amount.mgPerKg), high: writePerKg(most) };
    return [gate('outside-band', 'stop', said('dose.gate.over-most', values))];
  }
  if (figure !== null) {
    const [under] = leastGates(product, animal.grams, amount.ul, amount.ug);
    if (under !== undefined) return [meantOr(figure, under.why)];
  }
  if (band === null || amount.mgPerKg === null)
    return figure === null ? [] : farFromOwn(product, animal, amount, figure);
  const over = above(amount.mgPerKg, band.high);
  if (!over && !above(exactly(band.low), amount.mgPerKg)) return [];
  const why = said(over ? 'dose.gate.over-band' : 'dose.gate.under-band', {
    product: product.name,
    dose: writePerKg(amount.mgPerKg),
    low: writePerKg(band.low),
    high: writePerKg(band.high),
  });
  if (figure !== null) return [meantOr(figure, why)];
  const printed = product.dose.by === 'bands' || product.dose.by === 'fixed';
  if (printed) return [gate('outside-band', 'second-person', why)];
  return [openedOr('outside-band', why, currentOrder('other-dose-than-label', product, formulary, animal))];
}

/** Beyond the limits by an order whose veterinarian said that it is meant so: a second person works it out; else it stops. */
const meantOr = ({ meant }: Ordered, why: Said): Gate => gate('outside-band', meant ? 'second-person' : 'stop', why);

/**
 * An order for a product without limits in mg per kg, against what its own rule gives this animal: half of that or less, or
 * one and a half times or more, has to be meant (ours, as for what was drawn). A product that has no rule has no judge.
 */
function farFromOwn(product: Product, animal: AboutAnimal, amount: Amount, figure: Ordered): Gate[] {
  const own = amountOf(product, animal.grams);
  if (!own.ok) return [];
  const [is, usual] =
    amount.ul !== null && own.amount.ul !== null
      ? [amount.ul, own.amount.ul]
      : [countOf(amount.pieces), countOf(own.amount.pieces)];
  if (is === null || usual === null || usual.isZero()) return [];
  const times = is.div(usual);
  if (!isFar(times)) return [];
  const values = { product: product.name, times: writeNumber(times, 2) };
  return [meantOr(figure, said('dose.gate.far-from-own', values))];
}

function amountSteps(
  product: Product,
  animal: AboutAnimal,
  amount: Amount,
  byOrder: boolean,
  diluted_mg_per_ml: string | null = null,
): DoseStep[] {
  const steps: DoseStep[] = [];
  if (animal.grams !== null && (byOrder || asksForWeight(product))) {
    steps.push({ what: said('dose.step.weight', { weight: { grams: animal.grams } }), source: null });
  }
  steps.push({ what: amount.rule, source: byOrder ? null : product.source });
  if (amount.ug !== null) {
    const drug = { micrograms: wholeMicrograms(amount.ug) as number };
    const perKg = amount.mgPerKg === null ? '' : writePerKg(amount.mgPerKg);
    const ingredient = product.ingredients[0]?.name ?? product.name;
    const what = said(perKg === '' ? 'dose.step.drug' : 'dose.step.drug-per-kg', { drug, perKg, ingredient });
    steps.push({ what, source: null });
  }
  if (diluted_mg_per_ml !== null) {
    const what = said('dose.step.diluted', { strength: writeStrength(diluted_mg_per_ml) });
    steps.push({ what, source: product.source });
  }
  if (amount.ul !== null) {
    steps.push({ what: said('dose.step.volume', { volume: volumeText(amount.ul) }), source: null });
  }
  return steps;
}

function drawSteps(
  { drawn, places, measuring, gates }: Drawing,
  ul: Decimal,
  product: Product,
  formulary: FormularyDocument,
): DoseStep[] {
  if (drawn === null) return [];
  const steps: DoseStep[] = [];
  const part = places === 1 ? ul : ul.div(places);
  if (places > 1) {
    steps.push({ what: said('dose.step.places', { places, volume: volumeText(part) }), source: null });
  }
  const values = {
    // On an insulin scale the mark is in units; the volume stands beside it.
    mark: drawn.scale === 'mL' ? drawn.mark : `${drawn.mark} (${writeVolume(drawn.volume_ul)})`,
    syringe: drawn.syringeName,
    exact: volumeText(part),
    percent: writeNumber(drawn.errorPercent.replace('-', ''), 2),
    tolerance: writeNumber(product.tolerancePercent),
    way: drawn.errorPercent.startsWith('-') ? 'under' : 'over',
  };
  const even = drawn.errorPercent === '0';
  const under = drawn.errorPercent.startsWith('-');
  const inBand = gates.some(({ code }) => code === 'mark-in-band');
  steps.push({
    what: said(
      inBand
        ? 'dose.step.mark-in-band'
        : even
          ? 'dose.step.mark'
          : under
            ? 'dose.step.mark-under'
            : 'dose.step.mark-over',
      values,
    ),
    source: null,
  });
  if (measuring !== null) {
    const values = {
      percent: writeNumber(measuring.tolerancePercent, 1),
      combined: writeNumber(measuring.combinedPercent, 1),
    };
    steps.push({ what: said('dose.step.instrument', values), source: formulary.instrument?.source ?? null });
    if (measuring.littleOfBarrel) steps.push({ what: said('dose.step.little-of-barrel'), source: null });
  }
  return steps;
}
