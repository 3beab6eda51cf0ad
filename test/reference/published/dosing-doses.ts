import { addDays, CalendarDate, daysBetween } from '../../../src/core/calendar.js';
import { courseDays } from '../../../src/core/dosing/course.js';
import { compareWithDose, perKgOfVolume, volumeAgainstLimits } from '../../../src/core/dosing/given.js';
import { siteLimit } from '../../../src/core/dosing/split.js';
import { calculateForecast, ForecastInput } from '../../../src/core/protocol/engine/calculate.js';
import { exactly } from '../../../src/core/quantity/exact.js';
import { starter } from '../../support/protocol.js';
import type { Asks, Given, Question } from './ask.js';
import {
  codes,
  dose,
  doseAt,
  formulary,
  found,
  ml,
  must,
  now,
  productOf,
  rounded,
  today,
  weightOf,
  withProduct,
} from './product.js';

/** An adult, where the source says no age: old enough for every label of the starter formulary. */
const grown = 60;
const weightIn = (given: Given): string =>
  given.has('weight_kg') ? `${given('weight_kg')} kg` : `${given('weight_lb')} lb`;

/** A dose from figures on a label, of as many of the four ways as are given: exactly one. */
const figures = (given: Given, more: { readonly weight?: string; readonly strength?: string } = {}) =>
  dose({
    weight: more.weight ?? weightIn(given),
    strength_mg_per_ml: more.strength ?? given('conc_mg_per_mL'),
    ...(given.has('dose_mg_per_kg') ? { mg_per_kg: given('dose_mg_per_kg') } : {}),
    ...(given.has('dose_mg_per_lb') ? { mg_per_lb: given('dose_mg_per_lb') } : {}),
    ...(given.has('mL_per_kg') ? { ml_per_kg: given('mL_per_kg') } : {}),
    ...(given.has('mL_per_lb') ? { ml_per_lb: given('mL_per_lb') } : {}),
  });
const amounts: Question = (given) => {
  const { mg, ml: volume } = figures(given);
  return { mg, mL: volume };
};

/** A product of the starter formulary under the name and the strength the source gives it. */
const named: Readonly<Record<string, string>> = {
  'praziquantel inj': 'praziquantel-injection-56-8',
  'praziquantel tablet': 'praziquantel-tablet-23',
  'praziquantel+pyrantel tablet': 'praziquantel-20-pyrantel-230',
  'itraconazole sol': 'itraconazole-10',
  'amoxicillin inj': 'amoxicillin-injection',
  'maropitant inj': 'maropitant-10',
  'mirtazapine ointment': 'mirtazapine-ointment-20',
  'lufenuron inj': 'lufenuron-injection-100',
  selamectin: 'selamectin-60',
  imidacloprid: 'imidacloprid-100',
  'fipronil spot-on': 'fipronil-100',
  'milbemycin oxime': 'milbemycin-tablet-5-75',
  ponazuril: 'ponazuril-100',
  fenbendazole: 'fenbendazole-100',
  doxycycline: 'doxycycline-10',
  metronidazole: 'metronidazole-50',
  pyrantel: 'pyrantel-50',
  dextrose: 'dextrose-50',
};
const productIn = (given: Given) => {
  const product = productOf(found(named[given('drug')], `product for ${given('drug')}`));
  for (const key of ['conc_mg_per_mL', 'conc_mg_base_per_mL'])
    if (given.has(key)) must(given(key), product.ingredients[0]?.mg_per_ml, 'the strength');
  return product;
};
/** The product's own dose, which is the published one; a stop would give no figures. */
function own(given: Given, ageWeeks = grown) {
  const product = productIn(given);
  const answer = dose({ weight: weightIn(given), product: product.id, age_days: ageWeeks * 7 });
  if (given.has('dose_mg_per_kg')) must(given('dose_mg_per_kg'), answer.mg_per_kg, 'the dose');
  return { product, answer };
}
const ownAmounts =
  (ageWeeks = grown): Question =>
  (given) => {
    const { answer } = own(given, ageWeeks);
    return { mg: answer.mg, mL: answer.ml };
  };

const countOf = { half: '0.5', '1': '1', '1 and a half': '1.5', '2': '2' };
/** Tablets as a number; the product says how many in words. */
function tablets(given: Given): string {
  const { pieces } = doseAt(productIn(given), weightIn(given), grown);
  const { n, whole, part } = found(pieces, 'tablets').with ?? {};
  const words = n !== undefined ? String(n) : whole === 0 ? String(part) : `${whole} and a ${part}`;
  return found(countOf[words as keyof typeof countOf], `number for ${words}`);
}

/** The stop for age or weight and the limit it names, as the source writes it. */
function labelStop(given: Given) {
  const stop = doseAt(productIn(given), weightIn(given), given.number('age_weeks')).gates.find(
    (one) => one.severity === 'stop' && one.code === 'below-label-weight',
  );
  const least = String(stop?.why.with?.['least'] ?? '').replace(/\s/g, '_');
  return { block: stop !== undefined, reason: `weight_below_${least}` };
}

const notByBand = (given: Given, ageWeeks: number) => {
  const { answer } = own(given, ageWeeks);
  return { band: answer.ml ?? answer.mg, ask: codes(answer, 'stop').includes('between-bands') };
};

const twoSlips = (given: Given, dosed: string, as: string) => {
  const per = (unit: string) =>
    dose({ weight: '1 lb', strength_mg_per_ml: '100', [unit === 'mg/lb' ? 'mg_per_lb' : 'mg_per_kg']: dosed }).mg;
  return exactly(found(per(as), 'dose')).div(found(per(given('true')), 'dose'));
};

/** The largest volume that passes, looked for upwards from one that does, in hundredths of a millilitre. */
function mostThatPasses(from_ul: number, passes: (volume_ul: number) => boolean): number {
  let volume_ul = from_ul;
  while (passes(volume_ul + 10) && volume_ul < 20_000) volume_ul += 10;
  return volume_ul;
}

/** A solution like dextrose, of something else or by another way, at a fixed small volume. */
const thisWay = (route: string, ingredients: object[], ageWeeks: number): string[] => {
  const changes = { route, ingredients, dilutions: [], perSite: null, dose: { by: 'fixed', ml: '0.1' }, band: null };
  const document = withProduct('dextrose-50', changes);
  const answer = dose({ weight: '2 kg', product: 'changed', age_days: ageWeeks * 7 }, document);
  return answer.gates.filter((one) => one.code === 'not-this-way').map((one) => one.severity);
};

/** What comes next of the starter protocol for a kitten, by `roundhand forecast`. */
function wormer(born: string, on: string, given: readonly string[]) {
  const line = { born, arrived_on: born, given: given.map((day) => ({ on: day, product: 'pyrantel-50' })) };
  const input = ForecastInput.parse({ ...line, schedules: ['roundworm'] });
  const answer = calculateForecast(input, { protocol: starter, formulary, today: CalendarDate.parse(on) });
  if (!answer.ok) throw new Error(answer.why.say);
  return found(answer.value.items[0]?.due_on, 'due day');
}

export const doses: Asks = {
  'VOL-01': (given) => {
    const { answer } = own(given);
    return { mL: answer.ml, mg: answer.mg, mg_per_kg_computed: rounded(answer.mg_per_kg, 2) };
  },
  'VOL-02': (given) => {
    const { answer } = own(given);
    return { mL: answer.ml, mg: answer.mg };
  },
  'VOL-04': (given) => {
    const { answer } = own(given, 8);
    must(given('mL'), answer.ml, 'the volume');
    return { mg_per_kg: rounded(answer.mg_per_kg, 2), warn: codes(answer).includes('outside-band') };
  },
  'VOL-05': (given) => notByBand(given, grown),
  'VOL-06': (given) => {
    const [line, species] = [{ weight: weightIn(given), age_days: 420 }, given('species')];
    const answer = dose({ ...line, product: productIn(given).id, species });
    return { mL: answer.ml, stops: codes(answer, 'stop') };
  },
  'VOL-07': (given) => ({ mg: own(given).answer.mg, tablets_of_23mg: tablets(given) }),
  'VOL-08': (given) => ({ mg: own(given).answer.mg, tablets_of_23mg: tablets(given) }),
  'VOL-09': (given) => ({ mg: own(given).answer.mg, tablets_of_23mg: tablets(given) }),
  'VOL-10': (given) => ({
    block: codes(doseAt(productIn(given), '600 g', given.number('age_weeks')), 'stop').includes('below-label-age'),
  }),
  ...Object.fromEntries(
    ['VOL-13', 'VOL-14', 'VOL-15', 'VOL-16'].map((id): [string, Question] => [
      id,
      (given) => ({ tablets: tablets(given), praziquantel_mg: own(given).answer.mg }),
    ]),
  ),
  'VOL-17': labelStop,
  'VOL-18': (given) => notByBand(given, 40),
  'VOL-20': ownAmounts(),
  'VOL-22': (given) => {
    const { days, doses: all } = courseDays(found(productIn(given).course, 'course'));
    return { dose_day_ranges: days, total_doses: all };
  },
  'VOL-25': (given) => ({
    fraction_of_intended: rounded(twoSlips(given, given('dose'), given('read_as')).toFixed(), 4),
  }),
  'VOL-26': amounts,
  'VOL-30': (given) => {
    const product = productIn(given);
    const { dose: rule } = product;
    must(given('dose_mg_per_lb'), rule.by === 'mg-per-lb' ? rule.usual : null, 'the dose');
    const at = (mg_per_ml: string) =>
      dose({ weight: weightIn(given), product: product.id, age_days: grown * 7, made_up: { mg_per_ml, hours_ago: 1 } });
    const [weak, strong] = [at('100'), at('250')];
    // A weighing is whole grams: 1814 for 4 lb.
    return { mg: rounded(weak.mg, 2), mL_at_100: rounded(weak.ml, 3), mL_at_250: rounded(strong.ml, 3) };
  },
  'VOL-31': ownAmounts(),
  'VOL-32': (given) => {
    const before = Array.from({ length: given.number('consecutive_days') - 1 }, (_, at) => ({
      product: productIn(given).id,
      hours_ago: 24 * (at + 1),
    }));
    const answer = dose({ weight: '2.4 kg', product: productIn(given).id, age_days: 420, given: before });
    return { block: codes(answer, 'stop').includes('too-often') };
  },
  'VOL-33': (given) => {
    const product = productIn(given);
    const { days } = courseDays(found(product.course, 'course'));
    const { mg } = dose({ weight: '4 kg', product: product.id, age_days: grown * 7 });
    return { mg, days: days.at(-1)?.[1] };
  },
  'VOL-34': (given) => {
    const product = productOf('mirtazapine-ointment-20');
    const [kitten, adult] = [doseAt(product, weightIn(given), 40), doseAt(product, '4 kg', grown)];
    must(given('mg'), ml(kitten.exact_ug), 'the dose');
    return {
      mg_per_kg: kitten.mgPerKg,
      adult_mg_per_kg: adult.mgPerKg,
      warn: codes(kitten, 'stop').includes('outside-band'),
    };
  },
  'VOL-35': ownAmounts(),
  'VOL-37': (given) => ({
    mL_per_kg_emodepside: rounded(
      dose({
        weight: '1 kg',
        product: 'emodepside-praziquantel',
        age_days: grown * 7,
        strength_read: given('conc_emodepside'),
      }).ml,
      4,
    ),
  }),
  'VOL-41': ownAmounts(),
  'VOL-42': (given) => {
    const product = productOf('selamectin-60');
    const read = given('conc_mg_per_mL');
    const answer = doseAt(product, weightIn(given), 40, { strengthRead: read });
    const twin = answer.gates.find((one) => one.code === 'strength-twin');
    const volume_ul = exactly(given('mL')).mul(1000).toNumber();
    return {
      mg_per_kg: perKgOfVolume(volume_ul, product, { grams: answer.grams, otherStrength: read })?.mgPerKg,
      times_label: twin?.why.with?.['times'],
      block: twin?.severity === 'stop',
    };
  },
  'VOL-45': (given) => ({
    mg_per_lb: figures(given, { weight: '1 lb' }).mg,
    mg_per_kg: rounded(figures(given, { weight: '1 kg' }).mg_per_kg, 3),
  }),
  ...Object.fromEntries(
    ['VOL-46', 'VOL-47', 'VOL-48', 'VOL-49', 'VOL-50'].map((id): [string, Question] => [
      id,
      (given) => {
        const { mg, ml: volume } = figures(given, { strength: '100' });
        return { mL: volume, mg };
      },
    ]),
  ),
  'VOL-51': (given) => {
    const product = productOf('imidacloprid-100');
    const answer = doseAt(product, weightIn(given), 9);
    const volume_ul = exactly(given('mL')).mul(1000).toNumber();
    const gate = compareWithDose(volume_ul, answer, product.tolerancePercent);
    return {
      mg_per_kg: rounded(perKgOfVolume(volume_ul, product, answer)?.mgPerKg ?? null, 1),
      times_practice: gate?.why.with?.['times'],
      block: gate?.severity === 'stop',
    };
  },
  'VOL-52': (given) => {
    const product = productIn(given);
    const order = {
      ...{ product: product.id, allows: 'below-label-age' as const, minAge: null, min_g: null },
      ...{ words: '', by: '', licence: '', until: today },
    };
    const at = (standingOrders: (typeof order)[]) =>
      codes(
        doseAt(product, '600 g', given.number('age_weeks'), { formulary: { ...formulary, standingOrders } }),
        'stop',
      );
    return { label_block: at([]).includes('below-label-age'), needs: at([order]).length === 0 ? 'vet_order' : '' };
  },
  'VOL-53': labelStop,
  'VOL-55': (given) => ({ mL_per_day: figures(given).ml }),
  'VOL-57': labelStop,
  'VOL-58': (given) => {
    const { product, answer } = own(given, 6);
    return { mg: answer.mg, mL: answer.ml, days: courseDays(found(product.course, 'course')).days[0]?.[1] };
  },
  'VOL-59': (given) => ({ mg_per_kg: rounded(figures(given, { weight: '1 kg', strength: '100' }).mg_per_kg, 2) }),
  'VOL-62': ownAmounts(),
  'VOL-63': (given) => ({ mL: rounded(figures(given, { strength: '1' }).ml, 2) }),
  'VOL-64': (given) => {
    const { product, answer } = own(given, 8);
    return { mg: answer.mg, mL: answer.ml, interval_h: found(product.course, 'course').everyHours };
  },
  'VOL-65': (given) => ({ mg: figures(given, { strength: '100' }).mg }),
  'VOL-66': (given) => {
    const product = productIn(given);
    const answer = doseAt(product, weightIn(given), grown);
    const usual_ul = Number(answer.unrounded_ul);
    const most_ul = mostThatPasses(usual_ul, (ul) => volumeAgainstLimits(ul, product, answer) === null);
    const after = (days: number) => {
      const recent = Array.from({ length: days }, (_, at) => ({
        product: product.id,
        at: new Date(Date.parse(now) - (at + 1) * 86_400_000).toISOString(),
        volume_ul: usual_ul,
      }));
      return codes(doseAt(product, weightIn(given), grown, { recent }), 'stop').includes('too-often');
    };
    const days = Array.from({ length: 30 }, (_, at) => at + 1).find(after);
    return { max_mg_per_dose: ml(found(perKgOfVolume(most_ul, product, answer), 'strength').ug), max_days: days };
  },
  'VOL-72': ownAmounts(5),
  'VOL-73': (given) => {
    // The bottle that is meant is the weaker one: the formulary of a place that keeps it.
    const ingredients = [{ name: 'pyrantel', mg_per_ml: given('conc_a') }];
    const answer = dose(
      { weight: '2 kg', product: 'changed', age_days: grown * 7, strength_read: given('conc_b') },
      withProduct('pyrantel-50', { ingredients }),
    );
    const twin = answer.gates.find((one) => one.code === 'strength-twin');
    return { factor: twin?.why.with?.['times'], block_without_scan: twin?.severity === 'stop' };
  },
  'VOL-74': (given) => {
    if (productIn(given).id !== 'pyrantel-50') throw new Error('another wormer');
    const born = addDays(today, -7 * given.number('age_weeks'));
    return { interval_days: daysBetween(today, wormer(born, today, [today])) };
  },
  'VOL-75': () => {
    const born = '2026-01-01';
    const first = wormer(born, born, []);
    return {
      start_week: daysBetween(CalendarDate.parse(born), first) / 7,
      interval_days: daysBetween(first, wormer(born, first, [first])),
    };
  },
  'VOL-76': (given) => {
    const product = productIn(given);
    const answer = dose({ weight: weightIn(given), product: product.id, age_days: 10, dilution: 'ten-percent' });
    must(
      given('g_per_kg'),
      rounded(
        exactly(answer.mg_per_kg ?? '0')
          .div(1000)
          .toFixed(),
        3,
      ),
      'the dose',
    );
    must(
      given('percent'),
      exactly(product.dilutions[0]?.gives_mg_per_ml ?? '0')
        .div(10)
        .toFixed(),
      'the dilution',
    );
    return { mg: answer.mg, mL_of_10pct: answer.ml };
  },
  'VOL-77': (given) => {
    const product = productOf('dextrose-50');
    must(
      given('percent'),
      exactly(product.ingredients[0]?.mg_per_ml ?? '0')
        .div(10)
        .toFixed(),
      'the stock',
    );
    const volume_ul = exactly(given('mL')).mul(1000).toNumber();
    const answer = doseAt(product, weightIn(given), 1);
    const gate = compareWithDose(volume_ul, answer, product.tolerancePercent);
    const perKg = found(perKgOfVolume(volume_ul, product, answer)?.mgPerKg, 'strength');
    return { g_per_kg: ml(perKg), times_intended: gate?.why.with?.['times'], block: gate?.severity === 'stop' };
  },
  'VOL-79': (given) => {
    const [name = ''] = given('fluid').split('-containing');
    const route = { SC: 'under the skin' }[given('route')] ?? '';
    return { block: thisWay(route, [{ name, mg_per_ml: '50' }], 1).includes('stop') };
  },
  'VOL-80': (given) => {
    const limit = siteLimit(productOf('saline-0-9'), formulary, weightOf(weightIn(given)).grams);
    return { mL_per_site: ml(found(limit, 'limit').most_ul.toFixed()) };
  },
  'VOL-81': (given) => {
    const document = withProduct('saline-0-9', { dose: { by: 'fixed', ml: given('mL') } });
    const answer = dose({ weight: weightIn(given), product: 'changed', age_days: 30 }, document);
    return { block: codes(answer, 'stop').includes('too-much-for-sites') };
  },
  'VOL-82': (given) => {
    const name = { 'bacteriostatic (preserved)': 'benzyl alcohol' }[given('fluid')] ?? '';
    return { block: thisWay('under the skin', [{ name, mg_per_ml: '9' }], 20).includes('stop') };
  },
  'VOL-83': (given) => {
    const name = given('flush').replace(/ised$/, '');
    const weeks = { neonate: 1 }[given('age')] ?? grown;
    return { warn: thisWay('into a vein', [{ name, mg_per_ml: '0.1' }], weeks).length > 0 };
  },
  'VOL-84': (given) => {
    const document = withProduct('imidacloprid-100', { ingredients: [{ name: given('drug'), mg_per_ml: '450' }] });
    const line = { weight: '2 kg', product: 'changed', age_days: 420, species: given('species') };
    return { block: codes(dose(line, document), 'stop').includes('never-for-cats') };
  },
};
