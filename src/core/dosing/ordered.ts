import type { Decimal } from 'decimal.js';
import { z } from 'zod';
import { derived } from '../derived.js';
import { exactly, plain } from '../quantity/exact.js';
import { writeInUnit, writeMass, writeNumber } from '../quantity/write.js';
import { type Said, type SayValue, said } from '../said.js';
import { type Amount, type AmountAnswer, amountOf } from './amount.js';
import { Exact, type Route } from './exact-text.js';
import type { Product } from './formulary.js';

export const OrderUnit = z.enum(['mg-per-kg', 'mg', 'mL-per-kg', 'mL', 'pieces']);
export type OrderUnit = z.infer<typeof OrderUnit>;

/**
 * How much a veterinarian orders, as a figure. `per` is a field of its own: 20 mg per kg a day, divided among three times,
 * is a third at each time of 20 mg per kg at a time.
 * Source of the shape: HL7 FHIR R4, Dosage.doseAndRate (a dose at each time, or a rate over a day).
 */
export const OrderDose = z.object({
  /** How many of `unit`; pieces in quarters (0.25, 1.5). Never nothing. */
  amount: Exact.refine((text) => !exactly(text).isZero(), 'an amount is more than nothing'),
  unit: OrderUnit,
  /** At each time, or over a day and divided evenly among its times. */
  per: z.enum(['time', 'day']),
});
export type OrderDose = z.infer<typeof OrderDose>;

/** An order's dose with how often a day it is given. */
export interface Ordered {
  readonly dose: OrderDose;
  /** Times a day, exact: 24 over the hours of an order by hours. */
  readonly timesADay: Decimal;
  /** The veterinarian said that what is outside the limits of the formulary is meant so. */
  readonly meant: boolean;
}

/**
 * What an order says of the amount: that it is the formulary's, a figure to be worked out, or words of which nobody here
 * works out a figure.
 */
export type OrderedAmount =
  | { readonly is: 'formulary' }
  | ({ readonly is: 'figure' } & Ordered)
  | {
      readonly is: 'words';
      readonly words: string;
      /** Who chooses where the words leave a range open; left out where they do not. */
      readonly chosenBy?: 'who-gives' | 'medical';
    };

/** Whether an amount of this unit cannot be worked out without a weight. */
export const isPerWeight = ({ unit }: Pick<OrderDose, 'unit'>): boolean => unit === 'mg-per-kg' || unit === 'mL-per-kg';

/** How much of its unit at one time. */
export const atOneTime = ({ dose, timesADay }: Pick<Ordered, 'dose' | 'timesADay'>): Decimal =>
  dose.per === 'time' ? exactly(dose.amount) : exactly(dose.amount).div(timesADay);

/** `10 mg per kg`, `1.5 pieces`: an amount with its unit, as the writing rules ask. */
export const amountWritten = (amount: Decimal | string, unit: OrderUnit): SayValue =>
  unit === 'pieces' ? said('order.dose.pieces', { n: exactly(amount).toNumber() }) : writeInUnit(amount, unit);

/** The dose as it was ordered, and what that is at one time where the two differ. */
export function orderedSaid({ dose, timesADay }: Pick<Ordered, 'dose' | 'timesADay'>): Said {
  const amount = amountWritten(dose.amount, dose.unit);
  if (dose.per === 'time') return said('order.dose.each', { amount });
  return said('order.dose.divided', {
    amount,
    times: writeNumber(timesADay, 2),
    each: amountWritten(atOneTime({ dose, timesADay }), dose.unit),
  });
}

/**
 * The exact amount of an order at one time for one animal. Drug in mg needs the strength of what is in the hand, or of one
 * tablet; of a tablet only quarters can be given, and what does not come out in quarters is asked about.
 */
export function orderedAmount(ordered: Ordered, product: Product, grams: number | null): AmountAnswer {
  const { unit } = ordered.dose;
  if (isPerWeight(ordered.dose) && grams === null) {
    return { ok: false, code: 'weight-missing', why: said('dose.gate.weight-missing', { product: product.name }) };
  }
  const { mg_per_ml = null, mg_per_piece = null, mg_per_g = null } = product.ingredients[0] ?? {};
  const by = unit === 'pieces' ? 'pieces' : unit.startsWith('mL') ? 'mL' : null;
  if (by !== null && !isMeasuredIn(product, by)) {
    const values = { product: product.name, by, in: by === 'mL' ? 'pieces' : 'mL' };
    return { ok: false, code: 'not-in-this-unit', why: said('dose.gate.not-in-this-unit', values) };
  }
  const rule = orderedSaid(ordered);
  const at = atOneTime(ordered);
  const amount = (ul: Decimal | null, ug: Decimal | null, pieces = ''): AmountAnswer => {
    const mgPerKg = ug === null || grams === null ? null : ug.div(grams);
    return { ok: true, amount: { ul, ug, mgPerKg, pieces, rule } satisfies Amount };
  };
  switch (unit) {
    case 'mL':
    case 'mL-per-kg': {
      const ul = unit === 'mL' ? at.mul(1000) : at.mul(grams ?? 0);
      return amount(ul, mg_per_ml === null ? null : ul.mul(exactly(mg_per_ml)));
    }
    case 'pieces': {
      const ug = mg_per_piece === null ? null : at.mul(exactly(mg_per_piece)).mul(1000);
      return isInQuarters(at) ? amount(null, ug, piecesText(at)) : notInQuarters(product, at);
    }
    case 'mg':
    case 'mg-per-kg': {
      const ug = unit === 'mg' ? at.mul(1000) : at.mul(grams ?? 0);
      if (mg_per_ml !== null) return amount(ug.div(exactly(mg_per_ml)), ug);
      const own = product.dose.by === 'fixed' && product.dose.g !== undefined ? amountOf(product, grams) : null;
      if (own !== null && mg_per_g !== null) {
        // Nobody measures another part of a strip of ointment: only its own amount comes out.
        const same = own.ok && own.amount.ug?.eq(ug) === true;
        return same ? amount(null, ug, own.amount.pieces) : otherThanStrip(product, ug);
      }
      if (mg_per_piece === null) {
        return { ok: false, code: 'strength-unknown', why: said('dose.gate.no-strength', { product: product.name }) };
      }
      const count = ug.div(exactly(mg_per_piece).mul(1000));
      return isInQuarters(count) ? amount(null, ug, piecesText(count)) : notInQuarters(product, count);
    }
  }
}

/** A tablet or tube goes by the piece and is not drawn; what has a strength per mL is drawn and has no pieces. */
function isMeasuredIn({ dose, ingredients }: Product, by: 'pieces' | 'mL'): boolean {
  const { mg_per_ml = null, mg_per_piece = null } = ingredients[0] ?? {};
  const rows = dose.by === 'bands' ? dose.bands : dose.by === 'fixed' ? [dose] : [];
  const pieces = mg_per_piece !== null || rows.some((row) => row.pieces !== undefined);
  if (by === 'pieces') return pieces;
  return mg_per_ml !== null || rows.some((row) => row.ml !== undefined) || !pieces;
}

const otherThanStrip = (product: Product, ug: Decimal): AmountAnswer => ({
  ok: false,
  code: 'not-in-this-unit',
  why: said('dose.gate.other-than-strip', { product: product.name, drug: writeMass(ug.toNumber()) }),
});

const isInQuarters = (count: Decimal): boolean => count.mul(4).isInteger();

const notInQuarters = (product: Product, count: Decimal): AmountAnswer => ({
  ok: false,
  code: 'not-in-quarters',
  why: said('dose.gate.not-in-quarters', { product: product.name, count: writeNumber(count, 2) }),
});

/** As the formulary writes pieces: `1 1/2`, `1/4`; three quarters as a decimal. */
function piecesText(count: Decimal): string {
  const whole = count.floor();
  const quarters = count.sub(whole).mul(4).toNumber();
  if (quarters === 0) return plain(whole);
  if (quarters === 3) return plain(count);
  const part = quarters === 2 ? '1/2' : '1/4';
  return whole.isZero() ? part : `${plain(whole)} ${part}`;
}

/** A product as an order has it go in: by another way its own place on the animal says nothing any more. */
export const byRoute = derived(
  (product: Product, route: Route | null): Product =>
    route === null || route === product.route ? product : { ...product, route, site: '', siteCode: null },
);
