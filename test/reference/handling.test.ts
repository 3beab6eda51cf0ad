import { readFileSync } from 'node:fs';
import ucumLhc from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';
import { CalendarDate, daysBetween } from '../../src/core/calendar.js';
import { amountOf } from '../../src/core/dosing/amount.js';
import { courseDays } from '../../src/core/dosing/course.js';
import { type Dose, doseOf } from '../../src/core/dosing/dose.js';
import type { DoseQuestion } from '../../src/core/dosing/dose-question.js';
import { Exact, FormularyDocument, Product, type Route } from '../../src/core/dosing/formulary.js';
import { compareWithDose } from '../../src/core/dosing/given.js';
import { deadSpaceOf, leastFor, rinsedTimes, toleranceOf } from '../../src/core/dosing/instrument.js';
import { inMillilitres, mixFor, perLitre, type VolumeUnit, weaken } from '../../src/core/dosing/mix.js';
import { siteLimit } from '../../src/core/dosing/split.js';
import { weightFresh } from '../../src/core/dosing/weight-fresh.js';
import { bloodAllowance, drawLessOften } from '../../src/core/point-of-care/blood.js';
import { calculateForecast, ForecastInput } from '../../src/core/protocol/engine/calculate.js';
import { exactly, plain } from '../../src/core/quantity/exact.js';
import { readVolume } from '../../src/core/quantity/read-volume.js';
import { readWeight } from '../../src/core/quantity/read-weight.js';
import { AnimalWeighed } from '../../src/log/kinds/animal.js';
import { say } from '../../src/words/say.js';
import { starterProtocol } from '../support/documents.js';
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
const instrument = found(starter.instrument, 'tolerances');
const blood = found(starter.blood, 'limits for blood');
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
const milli = (ul: { div: (by: number) => { toFixed: () => string } }): string => ul.div(1000).toFixed();

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

/** The roundworm line of the starter protocol for an animal, on a day. */
function worm(born: string, on: string, given: readonly string[]) {
  const input = ForecastInput.parse({
    born,
    arrived_on: born,
    given: given.map((day) => ({ on: day, product: 'pyrantel-50' })),
    schedules: ['roundworm'],
  });
  const context = { protocol: starterProtocol(), formulary: starter, today: CalendarDate.parse(on) };
  const answer = calculateForecast(input, context);
  if (!answer.ok) throw new Error(answer.why.say);
  return found(answer.value.items[0], 'roundworm schedule');
}

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
  'given-of-product': (given: { product: string; grams: number; age_weeks: number; given_ul: number }) => {
    const answer = dose(productOf(given.product), given.grams, given.age_weeks);
    const gate = compareWithDose(given.given_ul, answer, productOf(given.product).tolerancePercent);
    return { severity: gate?.severity, times: gate?.why.with?.['times'] };
  },
  'course-days': (given: { product: string }) => courseDays(found(productOf(given.product).course, 'course')),
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
  'fixed-course': (given: { product: string }) => {
    const product = productOf(given.product);
    const amount = amountOf(product, 4000);
    if (!amount.ok || amount.amount.ul === null || amount.amount.ug === null) throw new Error('no amount');
    const { days } = courseDays(found(product.course, 'course'));
    return { mg: milli(amount.amount.ug), ml: milli(amount.amount.ul), days };
  },
  'mg-per-kg': (given: { product: string; grams: number; age_weeks: number }) => {
    const answer = dose(productOf(given.product), given.grams, given.age_weeks);
    return { mg_per_kg: answer.mgPerKg, stops: codes(answer, 'stop') };
  },
  'label-stops': (given: { product: string; weight: string; age_weeks: number }) =>
    codes(dose(productOf(given.product), gramsOf(given.weight), given.age_weeks), 'stop'),
  'day-limits': (given: { product: string; grams: number }) => {
    const { band, perDay } = productOf(given.product);
    const kilograms = exactly(given.grams).div(1000);
    return {
      mg_per_dose: kilograms.mul(found(band, 'band').high).toFixed(),
      mg_per_day: kilograms.mul(found(perDay?.mg_per_kg, 'limit of a day')).toFixed(),
      days: perDay?.daysInARow,
    };
  },
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
  twin: (given: { product: string; own: string; read: string; grams: number }) => {
    const base = productOf(given.product);
    const ingredients = base.ingredients.map((one) => ({ ...one, mg_per_ml: given.own }));
    const answer = dose(like(given.product, { ingredients }), given.grams, 20, { strengthRead: given.read });
    const gate = found(
      answer.gates.find((one) => one.code === 'strength-twin'),
      'gate',
    );
    return { stops: codes(answer, 'stop').filter((code) => code === 'strength-twin'), times: gate.why.with?.['times'] };
  },
  dextrose: (given: { grams: number; dilution: string }) => {
    const product = productOf('dextrose-50');
    const diluted = dose(product, given.grams, 1, { dilution: given.dilution });
    const ul = exactly(found(diluted.unrounded_ul, 'volume'));
    const asStock = ul.mul(500).div(given.grams).div(1000);
    return {
      ml: milli(ul),
      as_stock_g_per_kg: asStock.toFixed(),
      times: asStock.mul(1000).div(found(diluted.mgPerKg, 'dose')).toFixed(),
      undiluted_stops: codes(dose(product, given.grams, 1), 'stop'),
    };
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
  'site-limit': (given: { product: string; grams: number }) => {
    const limit = found(siteLimit(productOf(given.product), starter, given.grams), 'limit');
    return { most_ml: milli(limit.most_ul), sites: limit.sites };
  },
  'flat-volume': (given: { product: string; ml: string; grams: number }) => {
    const flat = like(given.product, { dose: { by: 'fixed', ml: given.ml } });
    const answer = dose(flat, given.grams, 20);
    return {
      ml_per_kg: exactly(given.ml).mul(1000).div(given.grams).toFixed(),
      stops: codes(answer, 'stop').filter((code) => code === 'too-much-for-sites'),
    };
  },
  said: (given: { key: string; holds: string }) => say(given.key).includes(given.holds),
  'dead-space': (given: { syringe: string }) => deadSpaceOf(syringeOf(given.syringe), instrument),
  'needle-space': (given: { with: string; without: string }) =>
    deadSpaceOf(syringeOf(given.with), instrument) - deadSpaceOf(syringeOf(given.without), instrument),
  'stock-used': (given: { draws: number; each_ul: number; dead_ul: number }) => {
    const syringe = { ...syringeOf('tuberculin-1'), deadSpace_ul: given.dead_ul };
    return given.draws * (given.each_ul + deadSpaceOf(syringe, instrument));
  },
  rinse: (given: { drawn_ul: number; dead_ul: number }) => rinsedTimes(given.drawn_ul, given.dead_ul).toFixed(),
  'capacity-within': (given: { syringe: string; from_ml: number; to_ml: number }) => {
    const { capacity_ul } = syringeOf(given.syringe);
    return capacity_ul >= given.from_ml * 1000 && capacity_ul <= given.to_ml * 1000;
  },
  tolerance: (given: { capacity_ml: number; ml: number }) => {
    const volume = exactly(given.ml).mul(1000);
    const tolerance = found(toleranceOf(volume, given.capacity_ml * 1000, instrument), 'row');
    return { ml: milli(tolerance), percent: tolerance.mul(100).div(volume).toFixed() };
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
  'least-of-barrel': (given: { capacity_ml: number[] }) =>
    given.capacity_ml.map((capacity) => milli(found(leastFor(capacity * 1000, instrument), 'share'))),
  'strength-text': (given: { texts: string[] }) => given.texts.map((text) => Exact.safeParse(text).success),
  'weight-record': (given: { refused: unknown[]; taken: number }) => ({
    refused: given.refused.filter((grams) => !AnimalWeighed.safeParse({ grams, entered: '' }).success).length,
    taken: AnimalWeighed.safeParse({ grams: given.taken, entered: '680 g' }).success,
  }),
  'share-of-blood': (given: { grams: number; ul_per_g: number; draw_ul: number }) => {
    const { total_ul } = bloodAllowance(given.grams, [], now, { ...blood, ul_per_g: given.ul_per_g });
    return plain(exactly(given.draw_ul).mul(100).div(total_ul), 1);
  },
  'not-above': (given: { percent: number[]; days: number[] }) =>
    given.days.every((days, index) => {
      // The limit of the shortest time that reaches so far is what such a draw would have to keep to.
      const own = blood.limits.find((limit) => limit.days >= days);
      return own !== undefined && Number(own.percent) <= (given.percent[index] ?? 0);
    }),
  'ten-percent': (given: { grams: number; ul_per_g: number[] }) =>
    given.ul_per_g.map((ul_per_g) => {
      const { limits } = bloodAllowance(given.grams, [], now, { ...blood, ul_per_g });
      return limits.find((limit) => limit.days === 14)?.limit_ul;
    }),
  pcv: (given: { values: number[] }) => given.values.map((value) => drawLessOften(value, blood) !== null),
  'route-limit': (given: { route: Route; grams: number }) => {
    const product = withRoute('maropitant-10', given.route, [{ name: 'something', mg_per_ml: '10' }]);
    const limit = found(siteLimit(product, starter, given.grams), 'limit');
    return { good_ml: milli(found(limit.good_ul, 'usual')), most_ml: milli(limit.most_ul) };
  },
  'route-sites': (given: { routes: string[] }) =>
    given.routes.map((route) => starter.routeLimits.find((one) => one.route === route)?.sites),
  'vaccine-site': (given: { product: string; grams: number }) => {
    const product = productOf(given.product);
    const answer = dose(product, given.grams, 8);
    return { site: product.siteCode, places: answer.places, ml: milli(exactly(found(answer.total_ul, 'volume'))) };
  },
  'worm-next': (given: { born: string; given: string }) => {
    const next = worm(given.born, given.given, [given.given]);
    return {
      interval_days: daysBetween(CalendarDate.parse(given.given), found(next.due_on, 'day')),
      until: say(next.because).includes('4 months of age') ? '4 months' : '',
    };
  },
  'worm-start': (given: { born: string }) => {
    const born = CalendarDate.parse(given.born);
    const first = found(worm(given.born, given.born, []).due_on, 'day');
    const second = found(worm(given.born, first, [first]).due_on, 'day');
    return { start_week: daysBetween(born, first) / 7, interval_days: daysBetween(first, second) };
  },
  drift: (given: { grams: number; gain: number[]; days: number; age_days: number }) => {
    const product = productOf('pyrantel-50');
    const ulAt = (grams: number) => {
      const amount = amountOf(product, grams);
      return amount.ok ? found(amount.amount.ul, 'volume') : exactly(0);
    };
    const percent = given.gain.map((gain) => {
      const grown = ulAt(given.grams + gain * given.days);
      return plain(grown.sub(ulAt(given.grams)).mul(100).div(grown), 1);
    });
    const at = new Date(Date.parse(now) - given.days * 86_400_000).toISOString();
    return {
      percent,
      fresh: weightFresh({ at, grams: given.grams }, { youngest: given.age_days }, starter, now).fresh,
    };
  },
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
