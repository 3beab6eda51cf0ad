import { writePieces } from '../../../src/core/dosing/amount.js';
import { markText } from '../../../src/core/dosing/draw-up.js';
import { deadSpaceOf, leastFor, measuringOf } from '../../../src/core/dosing/instrument.js';
import { plausibleWeight } from '../../../src/core/dosing/plausible-weight.js';
import { siteLimit } from '../../../src/core/dosing/split.js';
import { believable } from '../../../src/core/growth/weight-tables.js';
import { bloodAllowance, tooMuchBlood } from '../../../src/core/point-of-care/blood.js';
import { exactly } from '../../../src/core/quantity/exact.js';
import { microlitresToUnits, readVolume } from '../../../src/core/quantity/read-volume.js';
import { readWeight, scaleStepPercent } from '../../../src/core/quantity/read-weight.js';
import { fromGrams, inGrams, type WeightUnit } from '../../../src/core/quantity/units.js';
import { writeMass, writeUnits, writeVolume } from '../../../src/core/quantity/write.js';
import { say } from '../../../src/words/say.js';
import type { Asks, Given, Question } from './ask.js';
import {
  codes,
  dose,
  formulary,
  found,
  ml,
  must,
  now,
  productOf,
  rounded,
  syringeOf,
  weightOf,
  withProduct,
} from './product.js';

const instrument = found(formulary.instrument, 'tolerances');
const blood = found(formulary.blood, 'limits for blood');
const plainSpaces = (text: string): string => text.replaceAll('\u00a0', ' ');
const significant = (text: string, digits: number): string => exactly(text).toSignificantDigits(digits).toFixed();
const volumeOf = (text: string, scale: 'U-100' | 'U-40' | null = null): number | string => {
  const reading = readVolume(text, scale);
  return reading.is === 'volume' ? reading.ul : reading.why.say;
};
const microlitres = (text: string): number => exactly(text).mul(1000).toNumber();
const mgAt = (weight: string): string => found(dose({ weight, mg_per_kg: '1', strength_mg_per_ml: '1' }).mg, 'dose');

const perKg =
  (name: 'mg_per_lb' | 'ml_per_lb'): Question =>
  (given) => {
    const answer = dose({ weight: '1 kg', strength_mg_per_ml: '1', [name]: given('per_lb') });
    return { per_kg_computed: rounded(name === 'mg_per_lb' ? answer.mg : answer.ml, 4) };
  };

const kept: Readonly<Record<string, readonly string[]>> = {
  'TB 1 mL': ['tuberculin-1'],
  '3 mL': ['luer-3', 'oral-3'],
  '5 or 10 mL': ['luer-5', 'oral-5', 'luer-10', 'oral-10'],
  'U-100 1 mL': ['u100-1'],
  'U-100 0.3/0.5 mL': ['u100-0-3', 'u100-0-5'],
  'U-100 0.3 mL half-unit': ['u100-half-0-3'],
};
/** Syringes of the starter formulary of the kind that the source names; all of one kind have the same marks. */
function marksOf(given: Given): { readonly mark_ul: number; readonly scale: 'mL' | 'U-100' | 'U-40' } {
  const kinds = found(kept[given('syringe')], given('syringe')).map(syringeOf);
  const [first] = kinds;
  if (first === undefined || kinds.some((one) => one.mark_ul !== first.mark_ul)) throw new Error('marks differ');
  return first;
}
const interval: Question = (given) => ({ interval_mL: ml(marksOf(given).mark_ul) });
const lines: Question = (given) => {
  const { mark_ul, scale } = marksOf(given);
  const drawn = mark_ul * given.number('lines');
  const [units = ''] = plainSpaces(markText(drawn, scale)).split(' ');
  return { units, mL: ml(drawn) };
};

const measured = (volume_ul: number, capacity_ul: number, deadSpace_ul: number | null = null) =>
  found(
    measuringOf(volume_ul, exactly(volume_ul), { ...syringeOf('oral-1'), capacity_ul, deadSpace_ul }, instrument),
    'tolerance',
  );
const tolerance: Question = (given) => {
  const answer = measured(microlitres(given('mL')), microlitres(given('capacity_mL')));
  return { tol_mL: ml(answer.tolerance_ul), tol_pct: answer.tolerancePercent };
};

/** What may be left in the syringe alone, without a needle. */
const standardDeadSpace = (given: Given): number =>
  deadSpaceOf({ capacity_ul: microlitres(given('capacity_mL')), deadSpace_ul: null, routes: ['by mouth'] }, instrument);

/** A dose by mouth of just this volume, drawn with a 1 mL oral syringe. */
const smallDose = (given: Given): string[] => {
  if (given('syringe') !== 'oral 1 mL') throw new Error('another syringe');
  const grams = exactly(given('mL')).mul(5000).toFixed();
  const answer = dose({ weight: `${grams} g`, product: 'pyrantel-50', age_days: 420, syringes: ['oral-1' as never] });
  must(given('mL'), answer.ml, 'the volume');
  return codes(answer);
};

const rounding: Question = (given) => {
  if (!given('mode').startsWith('nearest')) throw new Error('another rounding');
  const at = (tolerance_percent: string) =>
    dose({
      weight: '1 kg',
      ml_per_kg: given('mL'),
      strength_mg_per_ml: '1',
      syringe: { capacity_ml: '3', mark_ml: given('interval_mL') },
      tolerance_percent,
    });
  const drawn = at('100');
  return {
    mL_drawn: drawn.drawn_ml,
    error_pct: drawn.errors?.rounding_percent,
    within_5_pct: !at('5').stopped,
    within_10_pct: !at('10').stopped,
  };
};

const scaleStep: Question = (given) => {
  const [amount = '', unit] = given('step').split(' ');
  const { step_g } = weightOf(`${amount.replace(/^\d/, '9')} ${unit}`);
  return {
    step_g: rounded(step_g, 2),
    step_pct: scaleStepPercent({ grams: given.number('weight_g') as never, step_g }),
  };
};

const allowed = (given: Given) => bloodAllowance(given.number('weight_kg') * 1000, [], now, blood);
const limits: Question = (given) => {
  const { total_ul, limits: each } = allowed(given);
  const of = (percent: string) =>
    ml(
      found(
        each.find((_, at) => blood.limits[at]?.percent === percent),
        percent,
      ).limit_ul,
    );
  return {
    total_mL: ml(total_ul),
    'weekly_7.5pct_mL': of('7.5'),
    two_weeks_10pct_mL: of('10'),
    four_weeks_15pct_mL: of('15'),
  };
};

/** A drug at this route of which the label names no limit of its own. */
const atRoute = (route: string, given: Given) => {
  const document = withProduct('maropitant-10', { route, perSite: null });
  return found(
    siteLimit(found(document.products.at(-1), 'product'), document, given.number('weight_kg') * 1000),
    'limit',
  );
};
const proxy = (route: string): boolean =>
  /analogy/.test(formulary.routeLimits.find((one) => one.route === route)?.note ?? '');
const routes: Readonly<Record<string, string>> = { IM: 'into muscle', SC: 'under the skin' };

const kittenWeight = (given: Given, grams: number) => {
  const age = given.number('age_weeks') * 7;
  return plausibleWeight(grams, { last: null, ageDays: { youngest: age, oldest: age } });
};
const envelope: Question = (given) => {
  const age = given.number('age_weeks') * 7;
  const { from_g, to_g } = believable({ youngest: age, oldest: age });
  return { engine_envelope_g: [from_g, to_g] };
};

export const marks: Asks = {
  'UNIT-01': (given) => {
    const grams = inGrams(given('value'), given('from') as WeightUnit);
    const exact = weightOf(`${given('value')} ${given('from')}`).exact_g;
    return { kg: fromGrams(grams, 'kg').toFixed(), exact: grams.eq(exact) };
  },
  'UNIT-02': (given) => {
    const exact = weightOf(`${given('value')} ${given('from')}`).exact_g;
    return { g: exact, exact: inGrams(given('value'), given('from') as WeightUnit).eq(exact) };
  },
  'UNIT-06': (given) => ({
    g_6sig: significant(weightOf(`${given('value')} ${given('from')}`).exact_g, 6),
    lb_per_kg_6sig: significant(fromGrams(inGrams(given('value'), 'kg'), 'lb').toFixed(), 6),
    oz_g_6sig: significant(weightOf(`${given('value')} oz`).exact_g, 6),
  }),
  'UNIT-07': (given) => ({ refused: volumeOf(`${given('value')} ${{ '[drp]': 'drop' }[given('from')]}`) }),
  'UNIT-08': (given) => ({ refused: volumeOf(`${given('value')} ${/^\[drp\]/.test(given('from')) ? 'drop' : ''}`) }),
  'UNIT-11': (given) => ({ g: rounded(weightOf(`${given('lb')} lb ${given('oz')} oz`).exact_g, 3) }),
  'UNIT-12': (given) => ({ g: rounded(weightOf(`${given('lb')} lb`).exact_g, 3) }),
  'UNIT-14': (given) => {
    const [meant, taken] = [given('true_unit'), given('assumed_unit')].map((unit) =>
      mgAt(`${given('entered')} ${unit}`),
    );
    return {
      overdose_factor: significant(
        exactly(taken ?? '0')
          .div(meant ?? '1')
          .toFixed(),
        6,
      ),
    };
  },
  ...Object.fromEntries(
    ['DUAL-01', 'DUAL-02', 'DUAL-03', 'DUAL-04', 'DUAL-07', 'DUAL-08'].map((id) => [id, perKg('mg_per_lb')]),
  ),
  'DUAL-05': perKg('ml_per_lb'),
  'SYR-01': interval,
  'SYR-03': interval,
  'SYR-04': interval,
  'SYR-06': (given) => ({ mL: ml(volumeOf(`${given('units_U100')} units`, 'U-100')) }),
  'SYR-07': lines,
  'SYR-08': lines,
  'SYR-09': lines,
  'SYR-10': (given) => {
    const scale = given('syringe') as 'U-40';
    return {
      units_U40: microlitresToUnits(microlitres(given('mL')), scale).toFixed(),
      mL_per_unit: ml(volumeOf('1 unit', scale)),
    };
  },
  'SYR-11': (given) => {
    const [forty, hundred] = (['U-40', 'U-100'] as const).map((scale) => volumeOf(`${given('units')} units`, scale));
    must(given('U40_mL'), ml(forty ?? ''), 'the U-40 volume');
    must(given('U100_mL'), ml(hundred ?? ''), 'the U-100 volume');
    return { ratio: Number(forty) / Number(hundred) };
  },
  'SYR-12': (given) => {
    const { mark_ul, scale } = marksOf(given);
    const answer = dose({
      weight: '1 kg',
      ml_per_kg: given('mL'),
      strength_mg_per_ml: '1',
      syringe: { capacity_ml: '1', mark_ml: ml(mark_ul) ?? '', scale },
      tolerance_percent: '0',
    });
    return { on_mark: !answer.stopped };
  },
  'SYR-13': (given) => ({ max_dead_mL: ml(standardDeadSpace(given)) }),
  'SYR-15': (given) => ({ measured_below_mL: ml(standardDeadSpace(given)) }),
  'SYR-16': (given) => {
    const of = (routesOf: ('by mouth' | 'under the skin')[]) =>
      deadSpaceOf({ capacity_ul: 1000, deadSpace_ul: null, routes: routesOf }, instrument);
    return { mL: given.list('needle').map(() => ml(of(['under the skin']) - of(['by mouth']))) };
  },
  'SYR-18': (given) => {
    const kinds: Readonly<Record<string, string>> = { low: 'u100-half-0-3', standard: 'tuberculin-1' };
    return { uL: given.list('design').map((one) => deadSpaceOf(syringeOf(kinds[one] ?? ''), instrument)) };
  },
  'SYR-19': (given) => ({
    factor: measured(microlitres(given('dose_mL')), 1_000, microlitres(given('dead_mL'))).rinseTimes,
  }),
  'SYR-21': (given) => {
    const enteral = syringeOf('enteral-1');
    const dead = deadSpaceOf(enteral, instrument);
    const { rinseTimes } = measured(microlitres(given('dose_mL')), enteral.capacity_ul, enteral.deadSpace_ul);
    return { possible_extra_mL: ml(dead), possible_total_factor: rinseTimes };
  },
  ...Object.fromEntries(
    ['SYR-23', 'SYR-24', 'SYR-25', 'SYR-26', 'SYR-27', 'SYR-28', 'SYR-30'].map((id) => [id, tolerance]),
  ),
  'ACC-01': (given) => ({ reliable: !smallDose(given).includes('small-volume') }),
  'ACC-02': (given) => ({ warn: smallDose(given).includes('small-volume') }),
  'ACC-03': (given) => ({
    min_mL: given
      .list('capacity_mL')
      .map((capacity) => ml(found(leastFor(microlitres(capacity), instrument), 'share').toFixed())),
  }),
  ...Object.fromEntries(['ACC-05', 'ACC-06', 'ACC-07', 'ACC-08', 'ACC-10', 'ACC-11'].map((id) => [id, rounding])),
  'ACC-12': scaleStep,
  'ACC-13': scaleStep,
  'ERR-07': (given) => ({ text: plainSpaces(writeVolume(microlitres(given('render_mL')))) }),
  'ERR-08': (given) => ({ text: plainSpaces(writeVolume(microlitres(given('render_mL')))) }),
  'ERR-09': (given) => ({
    replace_with: plainSpaces(writeVolume(Number(volumeOf(`2 ${given('unit')}`)))).split(' ')[1],
  }),
  'ERR-10': (given) => ({ text: plainSpaces(writeMass(Number.parseFloat(given('render')) * 1000)) }),
  'ERR-11': (given) => ({ text: plainSpaces(writeUnits(Number.parseFloat(given('render')))) }),
  'ERR-13': (given) => {
    const [mass = '', piece = ''] = given.list('render');
    const [pieces = '', what = ''] = piece.split(' ');
    return { text: [plainSpaces(writeMass(Number.parseFloat(mass))), `${say(writePieces(pieces))} ${what}`] };
  },
  'ERR-14': (given) => ({
    refused: given.list('ratio').map((ratio) => readVolume(`${ratio} mL`).is === 'no' && !isStrength(ratio)),
  }),
  'BLD-01': (given) => ({
    mL: ml(allowed(given).total_ul),
    mL_per_kg: blood.ul_per_g,
    range: [blood.ul_per_g_from, blood.ul_per_g_to],
  }),
  'BLD-02': limits,
  'BLD-03': limits,
  'BLD-05': limits,
  'BLD-06': (given) => {
    must(given('blood_mL_per_kg'), String(blood.ul_per_g), 'the blood of a cat');
    const allowance = bloodAllowance(1000, [], now, blood);
    return { reject_rule: tooMuchBlood(microlitres(given('rule_mL_per_kg')), allowance) !== null };
  },
  'BLD-08': (given) => ({
    weeks: given.list('pct').map((percent) => {
      const limit = blood.limits.find((one) => Number(one.percent) >= Number(percent));
      return limit === undefined ? null : limit.days / 7;
    }),
  }),
  'BLD-10': (given) => {
    const each = given
      .list('cbv_pct')
      .map((percent) =>
        bloodAllowance(given.number('weight_g'), [], now, { ...blood, ul_per_g: Number(percent) * 10 }),
      );
    return {
      cbv_mL: each.map((one) => ml(one.total_ul)),
      ten_pct_mL: each.map((one) => rounded(ml(one.limits.find((limit) => limit.days === 14)?.limit_ul ?? null), 2)),
    };
  },
  'BLD-11': (given) => {
    const allowance = allowed(given);
    return {
      weekly_limit_mL: ml(
        found(
          allowance.limits.find((one) => one.days === 7),
          'week',
        ).limit_ul,
      ),
      allowed: given.list('draw_mL').map((draw) => tooMuchBlood(microlitres(draw), allowance) === null),
    };
  },
  'INJ-01': (given) => {
    const { good_ul, most_ul } = atRoute('into muscle', given);
    return {
      im_mL: ml(found(good_ul, 'usual').toFixed()),
      im_max_mL: ml(most_ul.toFixed()),
      proxy: proxy('into muscle'),
    };
  },
  'INJ-02': (given) => {
    const { good_ul, most_ul } = atRoute('under the skin', given);
    return {
      sc_mL: ml(found(good_ul, 'usual').toFixed()),
      sc_max_mL: ml(most_ul.toFixed()),
      proxy: proxy('under the skin'),
    };
  },
  'INJ-03': (given) => ({
    max_sites: given
      .list('route')
      .map((one) => formulary.routeLimits.find(({ route }) => route === routes[one])?.sites),
  }),
  'INJ-04': (given) => {
    const ids: Readonly<Record<string, string>> = {
      rabies: 'rabies-vaccine-1ml',
      FeLV: 'felv-vaccine-1ml',
      'core FPV/FHV/FCV': 'core-vaccine-live-1ml',
    };
    // The source's "distal" is the low part of the leg.
    const site = (id: string) => found(productOf(id).siteCode, 'site').replaceAll('-', ' ').replace(/low$/, 'distal');
    return { site: given.list('vaccine').map((one) => site(ids[one] ?? '')) };
  },
  'WT-02': envelope,
  'WT-04': envelope,
  'WT-06': (given) => ({ plausible: !kittenWeight(given, given.number('g')).doubtful }),
  'WT-07': (given) => ({
    true_g_if_lb: rounded(weightOf(`${given('entered')} lb`).exact_g, 1),
    warn: kittenWeight(given, weightOf(`${given('entered')} ${given('unit')}`).grams).doubtful,
  }),
  'WT-08': (given) => ({ block: readWeight(given('entered'), given('unit') as WeightUnit).is === 'no' }),
};

/** Whether a strength may be written so at all. */
function isStrength(text: string): boolean {
  try {
    dose({ weight: '1 kg', mg_per_kg: '1', strength_mg_per_ml: text });
    return true;
  } catch {
    return false;
  }
}
