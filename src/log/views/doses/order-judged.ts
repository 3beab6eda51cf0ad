import type { Animal } from '../../../core/animal/animal.js';
import { amountOrdered } from '../../../core/animal/order-amount.js';
import { mostTimesOn, type OrderTerms, orderOn, timesADay } from '../../../core/animal/vet-order.js';
import { addDays, type CalendarDate } from '../../../core/calendar.js';
import type { Dose } from '../../../core/dosing/dose.js';
import type { Product } from '../../../core/dosing/formulary.js';
import { type Gate, type GateCode, gate, isLabelStop } from '../../../core/dosing/gate.js';
import { byRoute } from '../../../core/dosing/ordered.js';
import { type Exactly, exactly } from '../../../core/quantity/exact.js';
import { writeNumber } from '../../../core/quantity/write.js';
import { said } from '../../../core/said.js';
import type { Shelter } from '../shelter.js';
import { doseFor } from './dose.js';

/** A figure of an order as it comes out for the animal on the day on which it is written. */
export interface OrderJudged {
  /** First day of it. */
  readonly from: CalendarDate;
  readonly dose: Dose;
  /** The order cannot be written so: its figure is beyond every limit, or there is no such amount of this product. */
  readonly refused: readonly Gate[];
  /** What else stops it as things are today: a weight too old or doubted, no syringe that holds it. */
  readonly ahead: readonly Gate[];
  /** Stops of the label as things are today: the veterinarian opens each with the order, or it stops at the draw-up. */
  readonly label: readonly Gate[];
  /** Beyond the limits of the formulary, more often or another way in: to be confirmed by the veterinarian. */
  readonly beyond: readonly Gate[];
}

/** Nothing that a weight, a vial in the hand or a later day settles. */
const refusing: ReadonlySet<GateCode> = new Set([
  'not-for-species',
  'never-for-cats',
  'strength-unknown',
  'not-in-quarters',
  'not-in-this-unit',
  'not-this-way',
]);

/** How often a day an order comes at the most: its times, or of one as needed what its distance and its most let it. */
function mostTimesADay(terms: OrderTerms, from: CalendarDate): Exactly {
  const { timing } = orderOn(terms, from);
  if (timing.is !== 'as-needed') return timesADay(timing);
  const byDistance = Math.ceil(24 / (terms.leastHours ?? 24));
  return exactly(Math.min(byDistance, mostTimesOn(terms, from) ?? byDistance));
}

/** Another way in than the formulary's own. */
function otherRoute({ route }: OrderTerms, product: Product): Gate | null {
  if (route === null || route === product.route) return null;
  const values = { product: product.name, route: product.route, ordered: route };
  return gate('not-this-way', 'stop', said('dose.gate.other-route', values));
}

/** Times a day that are asked about where the formulary says nothing; ours. */
const mostTimes = 4;

/** More often in a day than the formulary gives it: its course, its most of a day, else four times. */
function oftenThanUsual(terms: OrderTerms, from: CalendarDate, { name, course, perDay }: Product): Gate | null {
  const times = mostTimesADay(terms, from);
  const usual = perDay?.doses ?? (course === null ? mostTimes : Math.max(1, Math.floor(24 / course.everyHours)));
  if (times.lte(usual)) return null;
  const values = { product: name, times: writeNumber(times, 1), usual };
  return gate('outside-band', 'stop', said('dose.gate.ordered-often', values));
}

/**
 * What an order for a product comes to today, each figure of it, or the formulary's own amount. A limit that the product names
 * as its end refuses; what is outside the usual limits is to be confirmed once, by whoever orders.
 */
export function judgeOrder(
  shelter: Shelter,
  animal: Animal,
  terms: OrderTerms,
  now: string,
  today: CalendarDate,
): readonly OrderJudged[] {
  const { formulary } = shelter;
  const { treat, steps, starts } = terms;
  if (formulary === null || treat.is !== 'product') return [];
  const product = formulary.products.find((one) => one.id === treat.product);
  if (product === undefined) return [];
  return [1, ...steps.map(({ fromDay }) => fromDay)].flatMap((day): OrderJudged[] => {
    const from = addDays(starts, day - 1);
    const ordered = amountOrdered(terms, from);
    const dose = doseFor(shelter, animal, byRoute(product, terms.route), now, today, { schedule: null, ordered });
    if (dose === null) return [];
    const stops = dose.gates.filter(({ severity }) => severity === 'stop');
    const most = stops.filter(({ why }) => why.say === 'dose.gate.over-most');
    const refused = [...most, ...stops.filter(({ code }) => refusing.has(code))];
    // The formulary's own amount needs nobody's word.
    const outside = stops.find((one) => ordered.is === 'figure' && one.code === 'outside-band' && !most.includes(one));
    const label = stops.filter(({ code }) => isLabelStop(code));
    const ahead = stops.filter((one) => one !== outside && !refused.includes(one) && !label.includes(one));
    const beyond = [outside, oftenThanUsual(terms, from, product), otherRoute(terms, product)];
    return [{ from, dose, refused, label, beyond: beyond.filter((one) => one != null), ahead }];
  });
}
