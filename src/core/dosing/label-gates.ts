import { addDays, addSpan, type CalendarDate, type Span } from '../calendar.js';
import type { Role } from '../people.js';
import { type Said, said } from '../said.js';
import type { FormularyDocument, Product, StandingOrder } from './formulary.js';
import { type Gate, type GateCode, gate, type OpenedGate } from './gate.js';
import { labelGrams, writeLabelWeight } from './label-weight.js';

export interface AboutAnimal {
  readonly species: string;
  readonly ageDays: { readonly youngest: number; readonly oldest: number };
  /** Weight in whole grams, or null. */
  readonly grams: number | null;
  readonly today: CalendarDate;
}

export interface LotForDose {
  readonly expiresOn: CalendarDate | null;
  readonly withdrawn: boolean;
}

/** Gates before any figure: the wrong species, which a veterinarian may open, or an ingredient that harms cats. */
export function speciesGates(product: Product, formulary: FormularyDocument, species: string): Gate[] {
  const gates: Gate[] = [];
  if (!product.species.some((each) => each === species)) {
    gates.push(gate('not-for-species', 'stop', said('dose.gate.species', { product: product.name, species })));
  }
  for (const { name } of product.ingredients) {
    const never = formulary.neverForCats.find((each) => each.ingredient.toLowerCase() === name.trim().toLowerCase());
    if (never === undefined) continue;
    gates.push(gate('never-for-cats', 'stop', said('dose.gate.never', { ingredient: name, why: never.why })));
  }
  return gates;
}

/** Expiry and withdrawal of the lot in the hand. The day of expiry itself is still good. */
export function lotGates(product: Product, lot: LotForDose | null, today: CalendarDate): Gate[] {
  if (lot === null) return [];
  const gates: Gate[] = [];
  if (lot.expiresOn !== null && lot.expiresOn < today) {
    const values = { product: product.name, on: { date: lot.expiresOn } };
    gates.push(gate('lot-expired', 'stop', said('dose.gate.expired', values)));
  }
  if (lot.withdrawn) {
    gates.push(gate('lot-withdrawn', 'stop', said('dose.gate.withdrawn', { product: product.name })));
  }
  return gates;
}

/**
 * Least age and weight of the label. Age counts from the youngest the animal may be. A standing order of the formulary
 * that is current, covers the product and whose own least age and weight are met turns the stop into a note.
 */
export function labelGates(product: Product, formulary: FormularyDocument, animal: AboutAnimal): Gate[] {
  const gates: Gate[] = [];
  const { labelMinAge, labelMinWeight } = product;
  if (labelMinAge !== null && !hasReached(labelMinAge, animal.ageDays.youngest, animal.today)) {
    const maybe = hasReached(labelMinAge, animal.ageDays.oldest, animal.today);
    const values = {
      product: product.name,
      least: saySpan(labelMinAge),
      age: { ageDays: Math.max(0, animal.ageDays.youngest) },
      oldest: { ageDays: Math.max(0, animal.ageDays.oldest) },
    };
    const why = said(maybe ? 'dose.gate.age-uncertain' : 'dose.gate.age', values);
    gates.push(openedOr('below-label-age', why, currentOrder('below-label-age', product, formulary, animal)));
  }
  if (labelMinWeight !== null && animal.grams !== null && animal.grams < labelGrams(labelMinWeight)) {
    const least = writeLabelWeight(labelMinWeight);
    const values = { product: product.name, least, weight: { grams: animal.grams } };
    const why = said('dose.gate.weight', values);
    gates.push(openedOr('below-label-weight', why, currentOrder('below-label-weight', product, formulary, animal)));
  }
  return gates;
}

/** The standing order that opens this kind of gate for this animal today, or null. Its last day is included. */
export function currentOrder(
  allows: StandingOrder['allows'],
  product: Product,
  formulary: FormularyDocument,
  animal: AboutAnimal,
): StandingOrder | null {
  const fits = formulary.standingOrders.find(
    (order) =>
      order.product === product.id &&
      order.allows === allows &&
      order.until >= animal.today &&
      (order.minAge === null || hasReached(order.minAge, animal.ageDays.youngest, animal.today)) &&
      (order.min_g === null || (animal.grams !== null && animal.grams >= order.min_g)),
  );
  return fits ?? null;
}

/** A stop, or the note it becomes under a standing order. */
export function openedOr(code: Gate['code'], why: Said, order: StandingOrder | null): Gate {
  if (order === null) return gate(code, 'stop', why);
  const values = { why, by: order.by, licence: order.licence, until: { date: order.until }, words: order.words };
  return gate(code, 'note', said('dose.gate.opened', values), order);
}

/** What nobody's word opens: it harms cats, the maker has called it back, or there is no figure to open. */
const neverOpened: readonly GateCode[] = [
  'never-for-cats',
  'lot-withdrawn',
  'weight-missing',
  'strength-unknown',
  'salt-and-base',
  'rule-for-another-strength',
  'no-syringe',
  'amount-by-order',
  'not-made-up',
  'no-recipe',
];

/** Stops turned into notes by a veterinarian's word for this animal and product that still runs today. */
export function openedByWord(
  gates: readonly Gate[],
  product: Product,
  opened: readonly OpenedGate[],
  today: CalendarDate,
): Gate[] {
  const current = opened.filter((one) => one.product === product.id && one.until >= today);
  if (current.length === 0) return [...gates];
  return gates.map((each) => {
    if (each.severity !== 'stop' || neverOpened.includes(each.code)) return each;
    const word = current.find((one) => one.gates.includes(each.code));
    if (word === undefined) return each;
    const values = {
      why: each.why,
      by: { person: word.by },
      licence: { licenceOf: word.by },
      until: { date: word.until },
    };
    return gate(each.code, 'note', said('dose.gate.opened-by-word', { ...values, reason: word.reason }), word);
  });
}

/** A product that only some roles may give. */
export function roleGates(product: Product, role: Role | undefined): Gate[] {
  if (role === undefined || product.mayGive.includes(role)) return [];
  return [gate('not-yours-to-give', 'stop', said('dose.gate.not-yours', { product: product.name }))];
}

export const hasReached = (least: Span, ageDays: number, today: CalendarDate): boolean =>
  addSpan(addDays(today, -ageDays), least) <= today;

/** A span in the unit of its source: 8 weeks stays 8 weeks. */
export function saySpan(span: Span): Said {
  const parts = [
    said('dose.span-years', { n: span.years ?? 0 }),
    said('dose.span-months', { n: span.months ?? 0 }),
    said('dose.span-weeks', { n: span.weeks ?? 0 }),
    said('dose.days', { n: span.days ?? 0 }),
  ].filter((part) => part.with?.n !== 0);
  return said('dose.span', { parts: { list: parts } });
}
