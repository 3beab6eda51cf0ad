import { Decimal } from 'decimal.js';

/**
 * Exact decimals for amounts. Sixty significant digits: a quotient that ends within sixty digits comes out exactly, and
 * one that does not end can never land on a half mark by accident (two fractions of our sizes differ far sooner), so a
 * tie is a tie and rounding happens once.
 */
export const Exactly = Decimal.clone({ precision: 60, rounding: Decimal.ROUND_HALF_UP, toExpNeg: -40, toExpPos: 40 });
export type Exactly = Decimal;

/** An exact decimal from text, whole number or another exact decimal. Throws when the text is no number. */
export const exactly = (value: string | number | Decimal): Decimal => new Exactly(value);

/**
 * A positive value moved to a multiple of `step`. `nearest`: a value half-way between two multiples goes down, because
 * too little of a drug is the safer slip (our rule). `down`: never up.
 */
export function toStep(value: Decimal, step: Decimal, how: 'nearest' | 'down'): Decimal {
  const mode = how === 'down' ? Decimal.ROUND_FLOOR : Decimal.ROUND_HALF_DOWN;
  return value.div(step).toDecimalPlaces(0, mode).mul(step);
}

/** A decimal as plain text with at most `places` decimals, no trailing zero, no power of ten. */
export const plain = (value: Decimal, places = 6): string => exactly(value.toDecimalPlaces(places)).toFixed();
