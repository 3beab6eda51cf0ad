import type { Decimal } from 'decimal.js';
import { type Said, said } from '../said.js';
import { exactly, plain } from './exact.js';
import { type NumberReading, readNumber } from './read-number.js';
import { type Grams, grams, gramsIn, inGrams, type WeightUnit, wholeGrams } from './units.js';
import { writeNumber, writeWeight } from './write.js';

/**
 * Bounds of any weight that is taken at all; outside them the unit or a digit must be wrong. Ours: the smallest live
 * kitten on record in our tables is 50 g, and the record keeps at most 20 kg.
 */
export const lightest: Grams = grams(20);
export const heaviest: Grams = grams(20_000);

export interface Weight {
  readonly grams: Grams;
  /** Before rounding to whole grams, plain decimal text. */
  readonly exact_g: string;
  /** One step of the last digit that was typed, in grams: a scale that shows 0.1 lb steps by 45 g. */
  readonly step_g: string;
  /** What was typed, kept for audit. */
  readonly entered: string;
  /** The weight said back in grams, kilograms and pounds. */
  readonly echo: Said;
}

export type WeightReading =
  | { readonly is: 'weight'; readonly weight: Weight }
  /** Two readings, both said in `why`; the person chooses. Only those that a cat can weigh are offered. */
  | { readonly is: 'ask'; readonly why: Said; readonly readings: readonly Weight[] }
  /** Nothing is taken; the text stays where it was typed. */
  | { readonly is: 'no'; readonly why: Said };

const unitWords: Readonly<Record<string, WeightUnit>> = {
  g: 'g',
  gram: 'g',
  grams: 'g',
  gramme: 'g',
  grammes: 'g',
  kg: 'kg',
  kgs: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
};

const no = (why: Said): WeightReading => ({ is: 'no', why });

/**
 * Reads a weight as people type it: `650g`, `0,65` in a kilogram field, `1 lb 8 oz`. A unit that is written wins over
 * the unit of the field. Returns whole grams, or the two readings to choose from, or the sentence why not; never part
 * of what was typed. Ties to whole grams go down.
 */
export function readWeight(entered: string, field: WeightUnit): WeightReading {
  const text = entered.replace(/[\u00a0\u2009\u202f]/g, ' ').trim();
  const pounds = /^([\d.,]+)\s*([a-z]+|#)\s*([\d.,]+)\s*([a-z]+)\.?$/i.exec(text);
  if (pounds) return readPoundsAndOunces(pounds, entered);
  const parts = /^(.*?)\s*([a-zµμ#]+)?\.?$/iu.exec(text);
  const typedUnit = parts?.[2]?.toLowerCase();
  // Without a unit the whole text is the number, so that "650." is seen as unfinished.
  const number = typedUnit === undefined ? text : (parts?.[1] ?? '');
  if (number === '') return typedUnit === undefined ? empty : no(said('dose.weight-unreadable', { entered }));
  const unit = typedUnit === undefined ? field : unitWords[typedUnit];
  if (unit === undefined) return no(said('dose.weight-unit-unknown', { unit: parts?.[2] ?? '' }));
  return inBounds(readNumber(number, unit === 'kg' || unit === 'lb'), unit, entered);
}

const empty: WeightReading = { is: 'no', why: said('dose.weight-empty') };

function readPoundsAndOunces(parts: RegExpExecArray, entered: string): WeightReading {
  const first = parts[2] === '#' ? 'lb' : unitWords[(parts[2] ?? '').toLowerCase()];
  const second = unitWords[(parts[4] ?? '').toLowerCase()];
  if (first !== 'lb' || second !== 'oz') return no(said('dose.weight-unreadable', { entered }));
  const lb = readNumber(parts[1] ?? '', true);
  const oz = readNumber(parts[3] ?? '', true);
  if (lb.is === 'no') return lb;
  if (oz.is === 'no') return oz;
  if (lb.is !== 'number' || oz.is !== 'number' || lb.decimals > 0 || oz.value.gte(16)) {
    return no(said('dose.weight-pounds-ounces', { entered }));
  }
  const exact = inGrams(lb.value, 'lb').add(inGrams(oz.value, 'oz'));
  return bounded(exact, entered, 'lb', () => weightOf(exact, 'oz', oz.decimals, entered));
}

function inBounds(reading: NumberReading, unit: WeightUnit, entered: string): WeightReading {
  if (reading.is === 'no') return reading;
  if (reading.is === 'number') {
    const exact = inGrams(reading.value, unit);
    return bounded(exact, entered, unit, () => weightOf(exact, unit, reading.decimals, entered));
  }
  const all = reading.values.map((value) => {
    const exact = inGrams(value, unit);
    const text = `${value.toFixed()} ${unit}`;
    return bounded(exact, text, unit, () => weightOf(exact, unit, value.decimalPlaces(), text));
  });
  const readings = all.flatMap((each) => (each.is === 'weight' ? [each.weight] : []));
  // Without a sign between thousands: said with one, it would have two readings again.
  const [one = '', other = ''] = reading.values.map((value) => `${value.toFixed()}\u00a0${unit}`);
  return readings.length === 0
    ? (all[0] ?? empty)
    : { is: 'ask', why: said('dose.weight-two-readings', { entered, one, other }), readings };
}

/** A weight is made only within the bounds: a chip number scanned into the field is no number of grams at all. */
function bounded(exact: Decimal, entered: string, unit: WeightUnit, make: () => Weight): WeightReading {
  if (exact.isZero()) return no(said('dose.weight-zero'));
  if (exact.gte(lightest) && exact.lte(heaviest)) return { is: 'weight', weight: make() };
  const read = `${writeNumber(exact.div(gramsIn[unit]))}\u00a0${unit}`;
  if (exact.lt(lightest)) return no(said('dose.weight-too-light', { entered, read }));
  // "655" in a kilogram field is most often grams; said as a question, never assumed.
  const asGrams = exact.div(gramsIn[unit]);
  return unit !== 'g' && asGrams.gte(lightest) && asGrams.lte(heaviest)
    ? no(said('dose.weight-too-heavy-grams', { entered, read, grams: `${writeNumber(asGrams)}\u00a0g` }))
    : no(said('dose.weight-too-heavy', { entered, read }));
}

const weightOf = (exact: Decimal, unit: WeightUnit, decimals: number, entered: string): Weight =>
  new Reading(entered, exact, unit, decimals);

/** What is derived is worked out when it is looked at: a calculator reads many weights and says none of them back. */
class Reading implements Weight {
  readonly grams: Grams;
  constructor(
    readonly entered: string,
    private readonly exact: Decimal,
    private readonly unit: WeightUnit,
    private readonly decimals: number,
  ) {
    this.grams = wholeGrams(exact);
  }
  get exact_g(): string {
    return plain(this.exact, 9);
  }
  get step_g(): string {
    return plain(exactly(gramsIn[this.unit]).div(exactly(10).pow(this.decimals)), 4);
  }
  get echo(): Said {
    return echoWeight(this.grams);
  }
}

/** A weight said back in three ways, so that a slip of unit or of a digit is heard. */
export const echoWeight = (weight: number): Said =>
  said('dose.weight-echo', {
    grams: { grams: weight },
    kilograms: writeWeight(weight, 'kg'),
    pounds: writeWeight(weight, 'lb-oz'),
  });

/** One step of the scale in percent of the weight, one decimal, plain text. */
export const scaleStepPercent = (weight: Pick<Weight, 'grams' | 'step_g'>): string =>
  plain(exactly(weight.step_g).div(weight.grams).mul(100), 1);

/**
 * Whether the scale steps too coarsely for this animal: one step of the display is over 2 percent of the weight (ours;
 * under 1 kg use a gram scale). Returns the sentence, or null.
 */
export function coarseScale(weight: Pick<Weight, 'grams' | 'step_g'>): Said | null {
  const percent = scaleStepPercent(weight);
  if (weight.grams >= 1000 || exactly(percent).lte(2)) return null;
  return said('dose.weight-coarse', {
    step: `${writeNumber(weight.step_g, 1)}\u00a0g`,
    percent: writeNumber(percent, 0),
    weight: { grams: weight.grams },
  });
}
