import { readFileSync } from 'node:fs';
import ucumLhc from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';
import { CalendarDate } from '../../src/core/calendar.js';
import { calculateDose, DoseInput } from '../../src/core/dosing/calculate.js';
import { type Dose, doseOf } from '../../src/core/dosing/dose.js';
import { FormularyDocument, Product, type StandingOrder } from '../../src/core/dosing/formulary.js';
import { exactly, plain } from '../../src/core/quantity/exact.js';
import { readWeight } from '../../src/core/quantity/read-weight.js';
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

function productOf(id: string): Product {
  const found = starter.products.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no product ${id}`);
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

runPart('dosing', {
  'read-weight': (given: { text: string; field: WeightUnit; decimals: number }) => {
    const reading = readWeight(given.text, given.field);
    if (reading.is !== 'weight') return reading.is;
    return { exact_g: plain(exactly(reading.weight.exact_g), given.decimals), grams: reading.weight.grams };
  },
  product,
  volume,
  'salt-as-base': (given: { salt_mg: string; base_mg: string; weight: string }) => {
    // Dose counted in base, strength counted in the salt that carries it.
    const mixed = Product.parse({
      ...productOf('pyrantel-50'),
      ingredients: [{ name: 'pyrantel', counted: 'embonate', mg_per_ml: given.salt_mg }],
      dose: { by: 'mg-per-kg', low: '5', usual: given.base_mg, high: '20', counted: 'base' },
    });
    return codes(dose({ product: 'pyrantel-50', weight: given.weight, age_weeks: 9 }, mixed), 'stop');
  },
  write: (given: { ul?: number; ug?: number; units?: string; grams?: number }) => {
    if (given.ul !== undefined) return plainSpaces(writeVolume(given.ul));
    if (given.ug !== undefined) return plainSpaces(writeMass(given.ug));
    if (given.grams !== undefined) return plainSpaces(writeWeight(given.grams));
    return plainSpaces(writeUnits(given.units ?? ''));
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
