import type { Decimal } from 'decimal.js';
import { type After, type Said, said } from '../said.js';
import { exactly } from './exact.js';
import { type NumberReading, readNumber } from './read-number.js';
import { type Microlitres, microlitres } from './units.js';

export type SyringeScale = 'mL' | 'U-100' | 'U-40';

export type VolumeReading =
  | { readonly is: 'volume'; readonly ul: Microlitres; readonly entered: string }
  | { readonly is: 'ask'; readonly why: Said; readonly readings: readonly Microlitres[] }
  | { readonly is: 'no'; readonly why: Said };

/** Microlitres in one unit of an insulin scale: U-100 is 100 units in 1 mL, U-40 is 40 units in 1 mL. */
const unit_ul: Readonly<Record<'U-100' | 'U-40', number>> = { 'U-100': 10, 'U-40': 25 };

/** Units on an insulin scale in microlitres, exact. 10 units of U-100 are 0.1 mL; of U-40 they are 0.25 mL. */
export const unitsToMicrolitres = (units: string | number | Decimal, scale: 'U-100' | 'U-40'): Decimal =>
  exactly(units).mul(unit_ul[scale]);

/** Microlitres in units of an insulin scale, exact. */
export const microlitresToUnits = (ul: number | Decimal, scale: 'U-100' | 'U-40'): Decimal =>
  exactly(ul).div(unit_ul[scale]);

const no = (say: `dose.volume-${After<'dose.volume-'>}`, entered: string): VolumeReading => ({
  is: 'no',
  why: said(say, { entered }),
});
/** More than any one draw-up here; beyond it a decimal sign is missing. Ours, and the limit of the record. */
const most_ul = 100_000;

/**
 * Reads a volume as people type it, in millilitres unless `units` is written; units need the scale of the syringe.
 * Returns whole microlitres, two readings to choose from, or the sentence why not. Drops, spoons and U are refused.
 */
export function readVolume(entered: string, scale: SyringeScale | null = null): VolumeReading {
  const parts = /^(.*?)\s*([a-zµμ]+)?\.?$/iu.exec(entered.replace(/[\u00a0\u2009\u202f]/g, ' ').trim());
  const unit = parts?.[2]?.toLowerCase();
  const number = unit === undefined ? entered.trim() : (parts?.[1] ?? '');
  // We write millilitres with a point, and a thousand of them is no draw-up: 1.234 mL has one reading.
  const reading = readNumber(number, unit === undefined || unit === 'ml');
  if (unit === undefined || unit === 'ml' || unit === 'cc' || unit === 'millilitre' || unit === 'millilitres') {
    return volumeOf(reading, entered, (value) => value.mul(1000));
  }
  if (unit === 'ul' || unit === 'µl' || unit === 'μl' || unit === 'microlitres') {
    return volumeOf(reading, entered, (value) => value);
  }
  if (unit === 'unit' || unit === 'units') {
    if (scale === null || scale === 'mL') return no('dose.volume-units-of-what', entered);
    return volumeOf(reading, entered, (value) => unitsToMicrolitres(value, scale));
  }
  if (unit === 'u' || unit === 'iu') return no('dose.volume-units-short', entered);
  if (/^(drop|drops|tsp|teaspoon|teaspoons|gtt)$/.test(unit)) return no('dose.volume-drops', entered);
  return no('dose.volume-unit-unknown', entered);
}

function volumeOf(reading: NumberReading, entered: string, toUl: (value: Decimal) => Decimal): VolumeReading {
  if (reading.is === 'no') return reading;
  if (reading.is === 'ask') {
    const readings = reading.values.map(toUl).filter((ul) => ul.isInteger() && ul.lte(most_ul) && ul.gt(0));
    if (readings.length === 0) return no('dose.volume-too-much', entered);
    return {
      is: 'ask',
      why: said('dose.volume-two-readings', { entered }),
      readings: readings.map((ul) => microlitres(ul.toNumber())),
    };
  }
  const ul = toUl(reading.value);
  if (ul.isZero()) return no('dose.volume-zero', entered);
  if (ul.gt(most_ul)) return no('dose.volume-too-much', entered);
  if (!ul.isInteger()) return no('dose.volume-too-fine', entered);
  return { is: 'volume', ul: microlitres(ul.toNumber()), entered };
}
