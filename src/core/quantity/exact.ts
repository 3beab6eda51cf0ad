import { Decimal } from 'decimal.js';

/**
 * Exact decimals for amounts. Sixty significant digits: a quotient that ends within sixty digits comes out exactly, and
 * one that does not end can never land on a half mark by accident (two fractions of our sizes differ far sooner), so a
 * tie is a tie and rounding happens once.
 */
export const Exactly = Decimal.clone({ precision: 60, rounding: Decimal.ROUND_HALF_UP, toExpNeg: -40, toExpPos: 40 });
export type Exactly = Decimal;

/**
 * An exact decimal as a double, from its first digits, right to about 15 of them. It never decides anything on its own:
 * it saves the exact work where an edge is far away, and whatever lies near an edge is worked out exactly.
 */
export function nearly(value: Decimal): number {
  const [first = 0, second = 0, third = 0] = value.d;
  const digits =
    first < 10 ? 1 : first < 100 ? 2 : first < 1e3 ? 3 : first < 1e4 ? 4 : first < 1e5 ? 5 : first < 1e6 ? 6 : 7;
  const scale = value.e - digits + 1;
  const size = first + second * 1e-7 + third * 1e-14;
  return value.s * (scale >= 0 ? size * 10 ** scale : size / 10 ** -scale);
}

/** `number` in units of its last decimal, rounded, when that is certain; null when a tie is near or it is too large. */
function certain(number: number, places: number): number | null {
  const scaled = number * 10 ** places;
  if (Math.abs(scaled) > 1e10) return null;
  const below = Math.floor(scaled);
  const part = scaled - below;
  if (Math.abs(part - 0.5) < 1e-3) return null;
  return part > 0.5 ? below + 1 : below;
}

/** A whole number of the last decimal as plain text: 750 with 4 places is 0.075. */
function placed(whole: number, places: number): string {
  if (places === 0) return String(whole === 0 ? 0 : whole);
  const scale = 10 ** places;
  const size = Math.abs(whole);
  const before = Math.trunc(size / scale);
  let after = size - before * scale;
  const sign = whole < 0 ? '-' : '';
  if (after === 0) return sign === '' || before === 0 ? String(before) : `-${before}`;
  let decimals = places;
  while (after % 10 === 0) {
    after /= 10;
    decimals--;
  }
  return `${sign}${before}.${String(after).padStart(decimals, '0')}`;
}

/** A figure that is known as a double only to be shown: its text where rounding is certain, else null. */
export function certainText(number: number, places: number): string | null {
  const whole = certain(number, places);
  return whole === null ? null : placed(whole, places);
}

/**
 * A quotient times a factor, as plain text with so many decimals, half-way up. Rounded from doubles where that is
 * certain, else exactly.
 */
export function quotientText(of: Decimal, by: Decimal, factor: number, places: number): string {
  const whole = certain((nearly(of) / nearly(by)) * factor, places);
  return whole === null ? plain(of.mul(factor).div(by), places) : placed(whole, places);
}

/** A thousandth of a plain decimal as plain text, half-way up: microlitres as millilitres. */
export function thousandthText(of: string | number, places = 6): string {
  const whole = certain(Number(of) / 1000, places);
  return whole === null ? plain(exactly(of).div(1000), places) : placed(whole, places);
}

/** Figures of a signed document are read again for every dose; each is parsed once. Only text of a few signs is kept. */
const parsed = new Map<string, Decimal>();
const mostKept = 4096;

/** An exact decimal from text, whole number or another exact decimal. Throws when the text is no number. */
export function exactly(value: string | number | Decimal): Decimal {
  if (typeof value !== 'string') return value instanceof Exactly ? value : new Exactly(value);
  const known = parsed.get(value);
  if (known !== undefined) return known;
  const made = new Exactly(value);
  if (parsed.size < mostKept && value.length <= 20) parsed.set(value, made);
  return made;
}

/**
 * Two different amounts of ours are further apart than this, and the sixtieth digit of a quotient that does not end is
 * closer: what differs by less is the same amount. Without it a third of an exact tolerance would count as outside it.
 */
const sliver = new Exactly('1e-40');

/** Whether an amount is above another one, and not only in the last digit of a quotient that does not end. */
export function above(value: Decimal, other: Decimal | string | number): boolean {
  const exact = typeof other === 'string' ? exactly(other) : other;
  const [here, there] = [nearly(value), typeof exact === 'number' ? exact : nearly(exact)];
  if (Math.abs(here - there) > (Math.abs(here) + Math.abs(there)) * 1e-12) return here > there;
  return value.sub(exact).gt(sliver);
}

/** How many whole times a step goes into a positive value. */
export const wholeTimes = (value: Decimal, step: Decimal): Decimal => value.add(sliver).divToInt(step);

/**
 * A positive value moved to a multiple of `step`. `nearest`: a value half-way between two multiples goes down, because
 * too little of a drug is the safer slip (our rule). `down`: never up.
 */
export function toStep(value: Decimal, step: Decimal, how: 'nearest' | 'down'): Decimal {
  const below = wholeTimes(value, step);
  if (how === 'down') return below.mul(step);
  // Twice the rest against the step: exact, where a quotient might not end.
  const over = above(value.sub(below.mul(step)).mul(2), step);
  return (over ? below.add(1) : below).mul(step);
}

/** The nearest whole number, half-way down. */
export const halfDown = (value: Decimal): number =>
  certain(nearly(value), 0) ?? value.toDecimalPlaces(0, Decimal.ROUND_HALF_DOWN).toNumber();

/** A decimal as plain text with at most `places` decimals, no trailing zero, no power of ten; half-way up by default. */
export function plain(value: Decimal, places = 6, mode: Decimal.Rounding = Decimal.ROUND_HALF_UP): string {
  const whole = certain(nearly(value), places);
  if (whole !== null) return placed(whole, places);
  // A tie stays a tie even when the sixtieth digit of a quotient has fallen just short of it, or just past it.
  const away = (mode === Decimal.ROUND_HALF_UP) !== value.isNegative();
  return bare((away ? value.add(sliver) : value.sub(sliver)).toFixed(places, mode));
}

/** Fixed text without the zeros at its end, and without the sign of a nothing. */
export function bare(fixed: string): string {
  const point = fixed.indexOf('.');
  if (point < 0) return fixed;
  let end = fixed.length;
  while (fixed.charCodeAt(end - 1) === 48) end--;
  const text = fixed.slice(0, end - 1 === point ? point : end);
  return text === '-0' ? '0' : text;
}
