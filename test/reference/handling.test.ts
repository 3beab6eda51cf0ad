import { readFileSync } from 'node:fs';
import ucumLhc from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';
import { CalendarDate } from '../../src/core/calendar.js';
import { type Dose, doseOf } from '../../src/core/dosing/dose.js';
import type { DoseQuestion } from '../../src/core/dosing/dose-question.js';
import { FormularyDocument, Product, type Route } from '../../src/core/dosing/formulary.js';
import { inMillilitres, mixFor, perLitre, type VolumeUnit, weaken } from '../../src/core/dosing/mix.js';
import { exactly, plain } from '../../src/core/quantity/exact.js';
import { readVolume } from '../../src/core/quantity/read-volume.js';
import { readWeight } from '../../src/core/quantity/read-weight.js';
import type { Key } from '../../src/core/said.js';
import { AnimalWeighed } from '../../src/log/kinds/animal.js';
import { say } from '../../src/words/say.js';
import { runPart } from './schema.js';

const starter = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const today = CalendarDate.parse('2026-03-12');
const now = '2026-03-12T15:00:00Z';
const found = <T>(value: T | null | undefined, what: string): T => {
  if (value === null || value === undefined) throw new Error(`the starter formulary has no ${what}`);
  return value;
};
const productOf = (id: string): Product =>
  found(
    starter.products.find((one) => one.id === id),
    id,
  );
const syringeOf = (id: string) =>
  found(
    starter.syringes.find((one) => one.id === id),
    id,
  );
const gramsOf = (text: string): number => {
  const reading = readWeight(text, 'g');
  if (reading.is !== 'weight') throw new Error(`${text} is no weight`);
  return reading.weight.grams;
};

function dose(product: Product, grams: number, ageWeeks: number, more: Partial<DoseQuestion> = {}): Dose {
  const age = ageWeeks * 7;
  return doseOf({
    product,
    formulary: starter,
    weighing: { grams, at: now, doubtful: false },
    ageDays: { youngest: age, oldest: age },
    today,
    now,
    syringes: starter.syringes.map((one) => one.id),
    ...more,
  });
}
const codes = (answer: Dose, severity: string): string[] =>
  answer.gates.filter((gate) => gate.severity === severity).map((gate) => gate.code);

/** A product of the formulary with some of its entry changed. */
const like = (id: string, changes: Record<string, unknown>): Product => Product.parse({ ...productOf(id), ...changes });
const withRoute = (id: string, route: Route, ingredients: unknown): Product =>
  like(id, { route, ingredients, dilutions: [], perSite: null, dose: { by: 'fixed', ml: '0.1' }, band: null });

runPart('handling', {
  millilitres: (given: { amount: string; unit: VolumeUnit }) => inMillilitres(given.amount, given.unit).toFixed(),
  'read-volume': (given: { text: string }) => {
    const reading = readVolume(given.text);
    return reading.is === 'no' ? reading.why.say : reading.is;
  },
  'flat-mg': (given: { mg: string; weight: string; low: string; high: string }) => {
    const ml = exactly(given.mg).div(50).toFixed();
    const flat = like('amoxicillin-50', { dose: { by: 'fixed', ml }, band: { low: given.low, high: given.high } });
    return codes(dose(flat, gramsOf(given.weight), 20), 'second-person').includes('outside-band')
      ? 'second-person'
      : 'fine';
  },
  'after-days': (given: { product: string; grams: number; age_weeks: number; hours: number[] }) => {
    const product = productOf(given.product);
    const recent = given.hours.map((hours) => ({
      product: product.id,
      at: new Date(Date.parse(now) - hours * 3_600_000).toISOString(),
      volume_ul: 240,
    }));
    return codes(dose(product, given.grams, given.age_weeks, { recent }), 'stop');
  },
  'label-stops': (given: { product: string; weight: string; age_weeks: number }) =>
    codes(dose(productOf(given.product), gramsOf(given.weight), given.age_weeks), 'stop'),
  'per-litre': (given: { stock: [string, VolumeUnit]; finished: [string, VolumeUnit]; decimals: number }) =>
    plain(perLitre(inMillilitres(...given.stock), inMillilitres(...given.finished)), given.decimals),
  mix: (given: { mix: string; finished_ml: number }) => {
    const amounts = mixFor(
      found(
        starter.mixes.find((one) => one.id === given.mix),
        given.mix,
      ),
      given.finished_ml,
    );
    return { stock_ml: amounts.stock_ml.toFixed(), diluent_ml: amounts.diluent_ml.toFixed() };
  },
  weaken: (given: { stock: string; wanted: string; finished_ml: string }) => {
    const amounts = found(weaken(given.stock, given.wanted, given.finished_ml), 'way');
    return { stock_ml: amounts.stock_ml.toFixed(), diluent_ml: amounts.diluent_ml.toFixed() };
  },
  'this-way': (given: { ingredient: string; mg_per_ml: string; route: Route; age_weeks: number }) => {
    const ingredients = [{ name: given.ingredient, mg_per_ml: given.mg_per_ml }];
    const answer = dose(withRoute('dextrose-50', given.route, ingredients), 2000, given.age_weeks);
    return answer.gates.filter((gate) => gate.code === 'not-this-way').map((gate) => gate.severity);
  },
  said: (given: { key: string; holds: string }) => say({ say: given.key as Key }).includes(given.holds),
  'capacity-within': (given: { syringe: string; from_ml: number; to_ml: number }) => {
    const { capacity_ul } = syringeOf(given.syringe);
    return capacity_ul >= given.from_ml * 1000 && capacity_ul <= given.to_ml * 1000;
  },
  'needles-by-gauge': (given: { never: string[] }) =>
    starter.products.every(({ needle }) => !given.never.some((colour) => needle.toLowerCase().includes(colour))),
  'needle-sizes': (given: { from: number; to: number }) => {
    const gauges = starter.products.flatMap(({ needle }) =>
      needle === '' ? [] : [Number(/^(\d+) G$/.exec(needle)?.[1])],
    );
    expect(gauges.length).toBeGreaterThan(3);
    return gauges.every((gauge) => gauge >= given.from && gauge <= given.to);
  },
  'weight-record': (given: { refused: unknown[]; taken: number }) => ({
    refused: given.refused.filter((grams) => !AnimalWeighed.safeParse({ grams, entered: '' }).success).length,
    taken: AnimalWeighed.safeParse({ grams: given.taken, entered: '680 g' }).success,
  }),
});

describe('volumes against the UCUM reference library (Verifies: DOSE-R35)', () => {
  const ucum = ucumLhc.UcumLhcUtils.getInstance();
  it.each([
    ['fl oz', '[foz_us]'],
    ['gal', '[gal_us]'],
    ['L', 'L'],
  ] as const)('%s in mL', (unit, code) => {
    for (const amount of ['1', '8', '0.35']) {
      const theirs = ucum.convertUnitTo(code, Number(amount), 'mL');
      expect(theirs.status).toBe('succeeded');
      // Their table holds doubles; twelve digits are theirs to promise.
      expect(Math.abs(inMillilitres(amount, unit).toNumber() / (theirs.toVal ?? 0) - 1)).toBeLessThan(1e-12);
    }
  });
});
