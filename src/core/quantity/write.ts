import { Decimal } from 'decimal.js';
import { exactly, plain } from './exact.js';
import { fromGrams } from './units.js';

/**
 * The one place where a number gets its unit. Rules of the ISMP list of error-prone abbreviations and dose
 * designations: a zero before the point always, a zero at the end never, a space before the unit (a no-break one, so
 * that a line end cannot part them), commas from 1,000, `mL` never `cc`, `mcg` and `units` in full.
 */
const space = '\u00a0';

/** A number as plain text: 0.5, 1, 1,234. Up to `places` decimals, half-way down. Powers of ten never appear. */
export function writeNumber(value: number | string | Decimal, places = 6): string {
  if (typeof value !== 'string' || value.length > 20) return numberText(value, places);
  const key = `${places} ${value}`;
  const known = numbers.get(key);
  if (known !== undefined) return known;
  const text = numberText(value, places);
  if (numbers.size < 4096) numbers.set(key, text);
  return text;
}
/** Figures of a signed document are written again for every dose. */
const numbers = new Map<string, string>();

function numberText(value: number | string | Decimal, places: number): string {
  const text =
    typeof value === 'number' && Number.isSafeInteger(value) && value >= 0
      ? String(value)
      : plain(exactly(value), places, Decimal.ROUND_HALF_DOWN);
  const point = text.indexOf('.');
  const whole = point < 0 ? text.length : point;
  if (whole <= 3) return text;
  return text.slice(0, whole).replace(/\B(?=(\d{3})+$)/g, ',') + text.slice(whole);
}

/** Whole microlitres in millilitres: 75 is `0.075 mL`. */
export function writeVolume(ul: number): string {
  const known = volumes.get(ul);
  if (known !== undefined) return known;
  const text = `${writeNumber(exactly(ul).div(1000))}${space}mL`;
  if (volumes.size < 4096) volumes.set(ul, text);
  return text;
}
/** Marks of syringes are written again and again. */
const volumes = new Map<number, string>();

export type WeightStyle = 'g' | 'kg' | 'lb' | 'lb-oz';

/** Whole grams as `650 g`, `0.65 kg`, `1.43 lb` or `1 lb 6.9 oz` (pounds and ounces are rounded, for reading only). */
export function writeWeight(weight: number, style: WeightStyle = 'g'): string {
  if (style === 'g') return `${writeNumber(weight)}${space}g`;
  if (style === 'kg') return `${writeNumber(fromGrams(weight, 'kg'), 3)}${space}kg`;
  if (style === 'lb') return `${writeNumber(fromGrams(weight, 'lb'), 2)}${space}lb`;
  // Rounded to tenths of an ounce before pounds are taken out, so that 15.96 oz becomes 1 lb and not 0 lb 16 oz.
  const tenths = fromGrams(weight, 'oz').mul(10).toDecimalPlaces(0).toNumber();
  const pounds = Math.floor(tenths / 160);
  const ounces = `${writeNumber(exactly(tenths % 160).div(10))}${space}oz`;
  if (pounds === 0) return ounces;
  return tenths % 160 === 0 ? `${pounds}${space}lb` : `${pounds}${space}lb${space}${ounces}`;
}

/** Whole micrograms: below 1 mg as `75 mcg`, from 1 mg as `7.5 mg`. */
export const writeMass = (ug: number): string =>
  ug < 1000 ? `${writeNumber(ug)}${space}mcg` : `${writeNumber(exactly(ug).div(1000))}${space}mg`;

/** Units of an insulin scale: `7.5 units`, `1 unit`. The scale itself (U-100, U-40) is named beside it. */
export function writeUnits(units: number | string | Decimal): string {
  const text = writeNumber(units);
  return `${text}${space}${text === '1' ? 'unit' : 'units'}`;
}

/** Dose for weight: `11.02 mg per kg`, two decimals. */
export const writePerKg = (mgPerKg: number | string | Decimal): string =>
  `${writeNumber(mgPerKg, 2)}${space}mg${space}per${space}kg`;

/** A dose as its label says it by the pound. */
export const writePerLb = (mgPerLb: number | string | Decimal): string =>
  `${writeNumber(mgPerLb, 2)}${space}mg${space}per${space}lb`;

/** An amount in mg or mL, or of them per kg, as a veterinarian orders it: `0.025 mg per kg`, up to four decimals. */
export const writeInUnit = (amount: number | string | Decimal, unit: 'mg' | 'mL' | 'mg-per-kg' | 'mL-per-kg'): string =>
  `${writeNumber(amount, 4)}${space}${unit.replaceAll('-', space)}`;

/** A share in percent with up to `places` decimals: `4.5 percent`. */
export const writePercent = (percent: number | string | Decimal, places = 1): string =>
  `${writeNumber(percent, places)}${space}percent`;

/** Of an ointment: `20 mg per g`. */
export const writePerGram = (mgPerG: number | string | Decimal): string =>
  `${writeNumber(mgPerG)}${space}mg${space}per${space}g`;

/** A strength: `50 mg per mL`. */
export const writeStrength = (mgPerMl: number | string | Decimal): string =>
  `${writeNumber(mgPerMl)}${space}mg${space}per${space}mL`;
