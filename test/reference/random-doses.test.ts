import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CalendarDate } from '../../src/core/calendar.js';
import { doseOf } from '../../src/core/dosing/dose.js';
import { FormularyDocument, Product, Syringe } from '../../src/core/dosing/formulary.js';
import { seed, times } from '../support/chance.js';
import { decimalOf, fractionOf, type PlainProduct, secondAnswer } from '../support/fraction-dose.js';

const starter = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
/** A million takes about a minute. */
const count = times(8_000, 1_000_000);

/** Numbers that come again from their seed (mulberry32, public domain). */
function dice(from: number): (below: number) => number {
  let state = from >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296) * below);
  };
}
const roll = dice(seed);
const one = <T>(of: readonly T[]): T => of[roll(of.length)] as T;
const decimal = (): string =>
  one([String(roll(200) + 1), `${roll(40)}.${roll(9) + 1}`, `${roll(9)}.${roll(90) + 10}5`]);
const routes = ['by mouth', 'under the skin', 'on the skin'] as const;

/** A product of the formulary, or one nobody would make: odd strengths, odd limits, every rule and rounding. */
function anyProduct(): Product {
  if (roll(3) === 0) {
    const usable = starter.products.filter((each) => each.species.includes('cat') && each.makeUp === null);
    return one(usable);
  }
  const usual = decimal();
  const strength = decimal();
  const dose = one([
    { by: 'mg-per-kg', low: usual, usual, high: usual },
    { by: 'ml-per-weight', ml: `0.0${roll(90) + 10}`, per: one(['lb', 'kg']), forStrength_mg_per_ml: strength },
    {
      by: 'bands',
      bands: [
        { from_g: 1, to_g: 2_000, ml: decimal() },
        { from_g: 2_000, to_g: 9_000, ml: decimal() },
      ],
    },
    { by: 'fixed', ml: decimal() },
  ] as const);
  const base = starter.products[1];
  return Product.parse({
    ...base,
    ingredients: [{ name: 'something', mg_per_ml: strength }],
    dose,
    band: one([null, { low: '0', high: decimal() }, { low: usual, high: `${Number(usual.split('.')[0]) + 1}` }]),
    rounding: one(['nearest', 'down']),
    tolerancePercent: one(['1', '2.5', '5', '10', '33.3']),
    route: one(routes),
    perSite: one([
      null,
      { most_ml_per_kg: `${roll(3)}.${roll(9) + 1}`, sites: roll(3) + 1, source: 'starter-choice', standing: 'read' },
    ]),
    labelMinAge: null,
    labelMinWeight: null,
    twins: [],
  });
}

/** Some of the formulary's syringes, and some that no maker sells. */
function anySyringes(): Syringe[] {
  const some = starter.syringes.filter(() => roll(3) > 0);
  const odd = Array.from({ length: roll(3) }, (_, index) =>
    Syringe.parse({
      id: `odd-${index}`,
      name: 'odd',
      capacity_ul: (roll(60) + 1) * 100,
      mark_ul: one([1, 3, 5, 7, 10, 25, 50, 100, 200]),
      scale: 'mL',
      source: 'starter-choice',
      standing: 'read',
    }),
  );
  return [...some, ...odd];
}

const plainOf = (product: Product): PlainProduct => ({
  strength: product.ingredients[0]?.mg_per_ml ?? null,
  dose: product.dose,
  low: product.band?.low ?? null,
  high: product.band?.high ?? null,
  end: product.stopAbove_mg_per_kg,
  least: product.least,
  down: product.rounding === 'down',
  tolerancePercent: product.tolerancePercent,
  route: product.route,
  perSite:
    product.perSite?.most_ml_per_kg == null
      ? null
      : { most_ml_per_kg: product.perSite.most_ml_per_kg, sites: product.perSite.sites },
});

const today = CalendarDate.parse('2026-03-12');
const now = '2026-03-12T15:00:00Z';

describe('random doses against fractions of whole numbers (Verifies: DOSE-R4, DOSE-R7, DOSE-R8, DOSE-R26, DOSE-R80)', () => {
  it(
    `${count} doses agree to the last digit, stay inside band and ceiling, and stand on a mark`,
    () => {
      let drawn = 0;
      for (let round = 0; round < count; round++) {
        const product = anyProduct();
        const syringes = anySyringes();
        const grams = one([roll(1_000) + 20, roll(5_000) + 20, roll(19_980) + 20]);
        const formulary = { ...starter, syringes };
        const dose = doseOf({
          product,
          formulary,
          weighing: { grams, at: now, doubtful: false },
          ageDays: { youngest: 400, oldest: 400 },
          today,
          now,
          syringes: syringes.map((each) => each.id),
        });
        const codes = dose.gates.map((gate) => gate.code);
        const about = `seed ${seed}, dose ${round}: ${grams} g of ${JSON.stringify(product.dose)}`;
        const second = secondAnswer(plainOf(product), grams, syringes, starter.volumeFloors, starter.marksInBand);
        if (second === null || dose.pieces !== null) continue;
        if (dose.unrounded_ul !== decimalOf(second.ul, 6)) throw new Error(`${about}: ${dose.unrounded_ul}`);
        const { volume_ul = null, syringe = null, errorPercent = null } = dose.drawn ?? {};
        if (volume_ul !== second.volume_ul || syringe !== second.syringe || errorPercent !== second.errorPercent) {
          throw new Error(`${about}: ${JSON.stringify(dose.drawn)} against ${JSON.stringify({ ...second, ul: '' })}`);
        }
        if (dose.drawn === null || dose.total_ul === null) continue;
        drawn++;
        const used = syringes.find((each) => each.id === syringe);
        const onMark = used !== undefined && dose.drawn.volume_ul % used.mark_ul === 0;
        if (!onMark || dose.drawn.volume_ul > (used?.capacity_ul ?? 0)) throw new Error(`${about}: off the barrel`);
        if (dose.places !== second.places) throw new Error(`${about}: ${dose.places} places`);
        // The band is passed by the drawn volume only where the exact one had passed it already, and then not further.
        const strength = product.ingredients[0]?.mg_per_ml;
        if (product.band === null || strength == null) continue;
        const mg = BigInt(dose.total_ul) * fractionOf(strength).n * fractionOf(product.band.high).d;
        const most = BigInt(grams) * fractionOf(product.band.high).n * fractionOf(strength).d;
        const passed = BigInt(dose.total_ul) * second.ul.d > second.ul.n;
        if (mg > most && passed) throw new Error(`${about}: above the end of the band`);
        const drug = BigInt(dose.total_ul) * fractionOf(strength).n * fractionOf(product.band.low).d;
        const least = BigInt(grams) * fractionOf(product.band.low).n * fractionOf(strength).d;
        const under = BigInt(dose.total_ul) * second.ul.d < second.ul.n;
        const exactInside = !codes.includes('outside-band');
        if (drug < least && under && exactInside) throw new Error(`${about}: under the end of the band`);
      }
      expect(drawn).toBeGreaterThan(count / 10);
    },
    30 * 60_000,
  );
});
