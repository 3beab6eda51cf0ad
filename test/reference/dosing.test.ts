import { readFileSync } from 'node:fs';
import ucumLhc from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';
import { CalendarDate } from '../../src/core/calendar.js';
import { amountOf, writePieces } from '../../src/core/dosing/amount.js';
import { calculateDose, DoseInput } from '../../src/core/dosing/calculate.js';
import { type Dose, doseOf } from '../../src/core/dosing/dose.js';
import { floorAt } from '../../src/core/dosing/draw.js';
import { drawUp, markFor, markText } from '../../src/core/dosing/draw-up.js';
import { FormularyDocument, Product, type StandingOrder, type Syringe } from '../../src/core/dosing/formulary.js';
import { compareWithDose } from '../../src/core/dosing/given.js';
import { plausibleWeight } from '../../src/core/dosing/plausible-weight.js';
import { believable } from '../../src/core/growth/weight-tables.js';
import { exactly, plain } from '../../src/core/quantity/exact.js';
import { microlitresToUnits, readVolume } from '../../src/core/quantity/read-volume.js';
import { readWeight, scaleStepPercent } from '../../src/core/quantity/read-weight.js';
import { fromGrams, inGrams, type WeightUnit } from '../../src/core/quantity/units.js';
import { writeMass, writeUnits, writeVolume, writeWeight } from '../../src/core/quantity/write.js';
import { say } from '../../src/words/say.js';
import { runPart } from './schema.js';

const starter = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const today = CalendarDate.parse('2026-03-12');
const now = '2026-03-12T15:00:00Z';
const plainSpaces = (text: string): string => text.replaceAll('\u00a0', ' ');
const round = (value: number | string, decimals: number): number =>
  exactly(value).toDecimalPlaces(decimals, 4).toNumber();

function productOf(id: string): Product {
  const found = starter.products.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no product ${id}`);
  return found;
}
function syringeOf(id: string): Syringe {
  const found = starter.syringes.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no syringe ${id}`);
  return found;
}
function gramsOf(text: string): number {
  const reading = readWeight(text, 'g');
  if (reading.is !== 'weight') throw new Error(`${text} is no weight`);
  return reading.weight.grams;
}
interface OfProduct {
  readonly product: string;
  readonly weight: string;
  readonly age_weeks: number;
  readonly order?: StandingOrder['allows'];
}
function dose(given: OfProduct, product = productOf(given.product)): Dose {
  const order: StandingOrder[] =
    given.order === undefined
      ? []
      : [
          {
            product: product.id,
            allows: given.order,
            minAge: null,
            min_g: null,
            words: '',
            by: '',
            licence: '',
            until: today,
          },
        ];
  const age = given.age_weeks * 7;
  return doseOf({
    product,
    formulary: { ...starter, standingOrders: order },
    weighing: { grams: gramsOf(given.weight), at: now, doubtful: false },
    ageDays: { youngest: age, oldest: age },
    today,
    now,
    syringes: starter.syringes.map((each) => each.id),
  });
}
const codes = (answer: Dose, severity: string): string[] =>
  answer.gates.filter((gate) => gate.severity === severity).map((gate) => gate.code);

/** Only what the published row says is compared. */
const only = (wanted: readonly string[], all: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(wanted.map((name) => [name, all[name]]));
interface Wanted {
  readonly want: readonly string[];
}

function product(given: OfProduct & Wanted): Record<string, unknown> {
  const answer = dose(given);
  return only(given.want, {
    ml: answer.unrounded_ul === null ? null : plain(exactly(answer.unrounded_ul).div(1000), 3),
    mg: answer.exact_ug === null ? null : plain(exactly(answer.exact_ug).div(1000)),
    mg_per_kg: answer.mgPerKg === null ? null : plain(exactly(answer.mgPerKg), 2),
    pieces: answer.pieces === null ? null : say(answer.pieces),
    mark: answer.drawn === null ? null : plainSpaces(answer.drawn.mark),
    drawn_ml: answer.drawn === null ? null : plain(exactly(answer.drawn.volume_ul).div(1000)),
    stops: codes(answer, 'stop'),
    second_person: codes(answer, 'second-person'),
  });
}

const context = { formulary: starter, today, now };
function calculate(input: DoseInput) {
  const answer = calculateDose(DoseInput.parse(input), context);
  if (!answer.ok) throw new Error(answer.why.say);
  return answer.value;
}

function volume({ decimals, want, ...input }: DoseInput & Wanted & { readonly decimals: number }) {
  const answer = calculate(input as DoseInput);
  const shown = (text: string | null): string | null => (text === null ? null : plain(exactly(text), decimals));
  return only(want, { mg: shown(answer.mg), ml: shown(answer.ml), mg_per_kg: shown(answer.mg_per_kg) });
}

interface PerPound {
  readonly published: string;
}
/** A published figure per pound in kilograms, and how far the published figure per kilogram is from it. */
function perKg(perLb: DoseInput, of: 'mg' | 'ml', published: string, name: string) {
  const exact = exactly(calculate(perLb)[of] ?? '');
  const difference = exact.sub(published).div(published).mul(100);
  return { [name]: round(exact.toFixed(), 4), difference_percent: round(difference.toFixed(), 2) };
}

const microlitres = (ml: string): number => exactly(ml).mul(1000).toNumber();

runPart('dosing', {
  convert: (given: { value: string; from: WeightUnit; to: WeightUnit; digits?: number }) => {
    const exact = fromGrams(inGrams(given.value, given.from), given.to);
    return given.digits === undefined ? exact.toFixed() : exact.toSignificantDigits(given.digits).toFixed();
  },
  'read-weight': (given: { text: string; field: WeightUnit; decimals: number }) => {
    const reading = readWeight(given.text, given.field);
    if (reading.is !== 'weight') return reading.is;
    return { exact_g: plain(exactly(reading.weight.exact_g), given.decimals), grams: reading.weight.grams };
  },
  'read-weight-no': (given: { text: string; field: WeightUnit }) => {
    const reading = readWeight(given.text, given.field);
    return reading.is === 'no' ? reading.why.say : reading.is;
  },
  'weight-slip': (given: { true_lb: string; last_g: number; days: number; age_weeks: number }) => {
    const age = given.age_weeks * 7;
    const check = plausibleWeight(gramsOf(`${given.true_lb} kg`), {
      last: { grams: given.last_g, daysAgo: given.days },
      ageDays: { youngest: age, oldest: age },
    });
    return check.doubtful ? check.why.say : 'fine';
  },
  'per-pound-to-per-kg': (given: PerPound & { mg_per_lb: string }) =>
    perKg({ weight: '1 kg', mg_per_lb: given.mg_per_lb, strength_mg_per_ml: '1' }, 'mg', given.published, 'mg_per_kg'),
  'ml-per-pound-to-per-kg': (given: PerPound & { ml_per_lb: string }) =>
    perKg({ weight: '1 kg', ml_per_lb: given.ml_per_lb, strength_mg_per_ml: '1' }, 'ml', given.published, 'ml_per_kg'),
  product,
  volume,
  'figures-mark': (given: Wanted & Record<string, string>) => {
    const { weight = '', ml_per_lb = '', strength_mg_per_ml = '', capacity_ml = '', mark_ml = '' } = given;
    const scale = given.scale as Syringe['scale'];
    const answer = calculate({ weight, ml_per_lb, strength_mg_per_ml, syringe: { capacity_ml, mark_ml, scale } });
    return only(given.want, { ml: answer.ml, mark: plainSpaces(answer.mark ?? '') });
  },
  'salt-as-base': (given: { salt_mg: string; base_mg: string; weight: string }) => {
    // Dose counted in base, strength counted in the salt that carries it.
    const mixed = Product.parse({
      ...productOf('pyrantel-50'),
      ingredients: [{ name: 'pyrantel', counted: 'embonate', mg_per_ml: given.salt_mg }],
      dose: { by: 'mg-per-kg', low: '5', usual: given.base_mg, high: '20', counted: 'base' },
    });
    return codes(dose({ product: 'pyrantel-50', weight: given.weight, age_weeks: 9 }, mixed), 'stop');
  },
  'with-ingredient': (given: { ingredient: string; weight: string }) => {
    const harmful = Product.parse({
      ...productOf('imidacloprid-100'),
      ingredients: [{ name: given.ingredient, mg_per_ml: '100' }],
    });
    return codes(dose({ product: harmful.id, weight: given.weight, age_weeks: 40 }, harmful), 'stop');
  },
  'strength-twin': (given: { product: string; strength: string; weight: string; ml: string }) => {
    const base = productOf(given.product);
    const asWritten = amountOf(base, gramsOf(given.weight));
    const twin = Product.parse({
      ...base,
      ingredients: base.ingredients.map((each) => ({ ...each, mg_per_ml: given.strength })),
      dose: { by: 'fixed', ml: given.ml },
    });
    const asTwin = amountOf(twin, gramsOf(given.weight));
    if (!asWritten.ok || !asTwin.ok) throw new Error('no amount');
    const [right, wrong] = [asWritten.amount.mgPerKg, asTwin.amount.mgPerKg];
    if (right === null || wrong === null) throw new Error('no mg per kg');
    return { mg_per_kg: plain(wrong), times: plain(wrong.div(right)) };
  },
  'given-against-dose': (given: OfProduct & { given_ul: number; at_least: number }) => {
    const answer = dose(given);
    const gate = compareWithDose(given.given_ul, answer, productOf(given.product).tolerancePercent);
    const ratio = given.given_ul / Number(answer.unrounded_ul);
    // Relative tolerance 0.001 as the sources' own rounding of pounds to whole grams asks for.
    return { severity: gate?.severity, reached: ratio >= given.at_least * 0.999 };
  },
  units: (given: { ml: string; scale: 'U-100' | 'U-40' }) =>
    microlitresToUnits(microlitres(given.ml), given.scale).toFixed(),
  'read-volume': (given: { text: string; scale: 'U-100' | 'U-40' }) => {
    const reading = readVolume(given.text, given.scale);
    return reading.is === 'volume' ? reading.ul : reading.why.say;
  },
  'syringe-mark': (given: { syringe: string }) => {
    const syringe = syringeOf(given.syringe);
    return {
      mark_ml: plain(exactly(syringe.mark_ul).div(1000)),
      mark: plainSpaces(markText(syringe.mark_ul, syringe.scale)),
    };
  },
  'at-hand': (given: { ml: string; tolerance: string; syringes: readonly string[] }) => {
    const rules = {
      route: 'on the skin' as const,
      rounding: 'nearest' as const,
      tolerancePercent: given.tolerance,
      ceiling_ul: null,
      maxMark_ul: null,
    };
    const atHand = given.syringes.map(syringeOf);
    const drawing = drawUp(exactly(microlitres(given.ml)), rules, atHand, starter.syringes);
    return drawing.ok ? { drawn: drawing.drawn.volume_ul } : { drawn: null, would_do: drawing.wouldDo };
  },
  'round-to-mark': (given: { ml: string; mark_ml: string }) => {
    const exact = exactly(microlitres(given.ml));
    const drawn = markFor(exact, { rounding: 'nearest', ceiling_ul: null }, microlitres(given.mark_ml));
    const error = exactly(drawn).sub(exact).div(exact).mul(100);
    return {
      ml: drawn / 1000,
      error_percent: round(error.toFixed(), 2),
      within_5: error.abs().lte(5),
      within_10: error.abs().lte(10),
    };
  },
  'small-volume': (given: { ml: string }) => {
    const floor = floorAt(microlitres(given.ml), starter.volumeFloors);
    const coarsest = floor?.maxMark_ul ?? null;
    return {
      severity: floor?.severity ?? null,
      coarsest_mark_ml: coarsest === null ? null : plain(exactly(coarsest).div(1000)),
    };
  },
  'scale-step': (given: { step: string; weight_g: number }) => {
    const reading = readWeight(given.step.replace(/^[\d.]+/, '9'), 'g');
    if (reading.is !== 'weight') throw new Error('no unit');
    const decimals = given.step.split(' ')[0]?.split('.')[1]?.length ?? 0;
    const step_g = exactly(reading.weight.step_g)
      .div(10 ** decimals)
      .toFixed();
    return scaleStepPercent({ grams: given.weight_g as never, step_g });
  },
  write: (given: { ul?: number; ug?: number; units?: string; grams?: number }) => {
    if (given.ul !== undefined) return plainSpaces(writeVolume(given.ul));
    if (given.ug !== undefined) return plainSpaces(writeMass(given.ug));
    if (given.grams !== undefined) return plainSpaces(writeWeight(given.grams));
    return plainSpaces(writeUnits(given.units ?? ''));
  },
  'write-pieces': (given: { pieces: string }) => say(writePieces(given.pieces)),
  believable: (given: { age_weeks: number }) => {
    const range = believable({ youngest: given.age_weeks * 7, oldest: given.age_weeks * 7 });
    return [range.from_g, range.to_g];
  },
  plausible: (given: { age_weeks: number; grams: number }) => {
    const age = given.age_weeks * 7;
    const check = plausibleWeight(given.grams, { last: null, ageDays: { youngest: age, oldest: age } });
    return check.doubtful ? check.why.say : 'fine';
  },
});

describe('conversions against the UCUM reference library (Verifies: DOSE-R1)', () => {
  const ucum = ucumLhc.UcumLhcUtils.getInstance();
  const code: Readonly<Record<WeightUnit, string>> = { g: 'g', kg: 'kg', lb: '[lb_av]', oz: '[oz_av]' };
  const units = Object.keys(code) as WeightUnit[];
  it.each(units.flatMap((from) => units.map((to) => [from, to] as const)))('%s to %s', (from, to) => {
    for (const amount of [1, 0.65, 1.5, 7, 12.3]) {
      const theirs = ucum.convertUnitTo(code[from], amount, code[to]);
      expect(theirs.status).toBe('succeeded');
      const ours = fromGrams(inGrams(amount, from), to).toNumber();
      // Their table holds doubles; twelve digits are theirs to promise.
      expect(Math.abs(ours / (theirs.toVal ?? 0) - 1)).toBeLessThan(1e-12);
    }
  });
});
