import { sectionDefaults } from '../../../src/core/biosecurity/section-defaults.js';
import { compareWithDose } from '../../../src/core/dosing/given.js';
import { lotsMatch } from '../../../src/core/point-of-care/kit.js';
import { resultOf, type Seen } from '../../../src/core/point-of-care/result.js';
import { exactly } from '../../../src/core/quantity/exact.js';
import { microlitresToUnits } from '../../../src/core/quantity/read-volume.js';
import { cartFor } from '../../../src/core/round/cart.js';
import { chipCourse } from '../../../src/log/views/chips/chip-course.js';
import { inDeviceOrder } from '../../../src/log/views/device-order.js';
import { mayAppend } from '../../../src/log/who-may.js';
import { roundId, roundLog, viewOf, when } from '../../support/round-log.js';
import type { Asks, Question } from './ask.js';
import { dose, doseAt, formulary, found, ml, must, productOf } from './product.js';
import { before, starter } from './treatments.js';

const kit = found(
  formulary.kits.find(({ id }) => id === 'felv-antigen-a'),
  'kit',
);
/** What a mark in each of the zones means, seen at the middle of the time to read. */
function reading(seen: Seen): string {
  const start = '2026-03-12T15:00:00Z';
  const at = new Date(Date.parse(start) + kit.readOpens_s * 1000).toISOString();
  const { result } = resultOf(kit, start, at, seen);
  return result === 'invalid' ? 'repeat' : result;
}
const nextIn =
  (schedule: string): Question =>
  (given) => {
    const on = given('given');
    return { next: starter(schedule, { born: before(on, 28), done: [on] }).on(on).due };
  };

/** A chip goes in on a round, scan after scan, until the course says that it is done. */
function scansOfImplant(): number {
  const log = roundLog({ 'kit-1': ['chip'] });
  const code = '900000000000303';
  const scan = (target: 'animal' | 'pack', occasion: 'before' | 'pack' | 'after', read: boolean, time: string) =>
    log.one(
      'chip-scanned',
      'animal:kit-1',
      { target, occasion, found: read ? { raw: code, code, class: 'iso' } : null, round: roundId as never },
      when(time),
    );
  const course = () => chipCourse(inDeviceOrder(log.records.filter((one) => one.subject === 'animal:kit-1')));
  let scans = 0;
  for (let minute = 10; course().is !== 'same'; minute += 1) {
    const time = `14:${minute}`;
    const { is } = course();
    if (is === 'implant') {
      const body = { code, site: 'between-shoulder-blades' as const, packScan: null, round: roundId as never };
      log.one('chip-implanted', 'animal:kit-1', body, when(time));
      continue;
    }
    scans += 1;
    if (is === 'scan-before') scan('animal', 'before', false, time);
    else if (is === 'scan-pack') scan('pack', 'pack', true, time);
    else if (is === 'scan-after') scan('animal', 'after', true, time);
    else throw new Error(`the course stands at ${is}`);
  }
  return scans;
}

export const commonPractice: Asks = {
  'CP-01': (given) => {
    const answer = dose({
      weight: `${given('weight_lb')} lb`,
      ml_per_lb: given('rule_ml_per_lb'),
      strength_mg_per_ml: '100',
      syringe: { capacity_ml: '0.3', mark_ml: '0.005', scale: 'U-100' },
    });
    return { volume_ml: answer.drawn_ml, u100_units: found(answer.mark, 'mark').split('\u00a0')[0] };
  },
  'CP-02': (given) => ({
    u100_units: microlitresToUnits(exactly(given('volume_ml')).mul(1000).toNumber(), 'U-100').toFixed(),
  }),
  'CP-03': (given) => {
    const product = productOf('imidacloprid-100');
    if (product.dose.by !== 'ml-per-weight' || product.dose.per !== 'lb') throw new Error('another rule');
    must(given('rule_ml_per_lb'), product.dose.ml, 'the rule');
    const answer = doseAt(product, `${given('weight_lb')} lb`, 9);
    const gate = compareWithDose(exactly(given('drawn_ml')).mul(1000).toNumber(), answer, product.tolerancePercent);
    return { stop: gate?.severity === 'stop' };
  },
  'CP-04': (given) => ({ dueFrom: starter('felv-test', { born: given('dob') }).on(given('dob')).due }),
  'CP-05': nextIn('roundworm'),
  'CP-06': nextIn('core-vaccine'),
  'CP-07': (given) => {
    const on = given('fleaGiven');
    const next = (schedule: string) => starter(schedule, { born: before(on, 90), done: [on] }).on(on);
    return { chipNext: next('chip').due, testNext: next('felv-test').due, fleaNotBefore: next('flea').earliest };
  },
  'CP-08': () => ({
    conjugateDrops: kit.conjugateDrops,
    bloodDrops: kit.sampleDrops,
    minBlood_ml: ml(kit.sample_ul),
    readAt_min: kit.readOpens_s / 60,
  }),
  'CP-09': (given) => ({ stop: !lotsMatch(kit, given('kitLot'), given('conjugateLot')).ok }),
  'CP-10': () => ({
    control: reading({ control: 'seen', antigen: 'not-seen', invalid: 'not-seen' }),
    'control+analyte': reading({ control: 'seen', antigen: 'seen', invalid: 'not-seen' }),
    'control+invalid': reading({ control: 'seen', antigen: 'not-seen', invalid: 'seen' }),
    none: reading({ control: 'not-seen', antigen: 'not-seen', invalid: 'not-seen' }),
  }),
  'CP-11': () => {
    const log = roundLog({ 'kit-1': ['flea', 'chip', 'felv-test'] });
    const steps: Readonly<Record<string, readonly string[]>> = {
      'felv-test': ['draw', 'start-test'],
      chip: ['chip'],
      flea: ['topical'],
    };
    const { lines } = viewOf(log).stop('kit-1');
    const [cart] = cartFor([{ is: 'test', kitType: kit.id }], [], formulary, 2).kits;
    return {
      order: lines.flatMap(({ schedule }) => steps[schedule] ?? [schedule]),
      spareSyringe: found(cart, 'kit').readySyringes - found(cart, 'kit').draws,
    };
  },
  'CP-12': () => ({ scans: scansOfImplant() }),
  'CP-13': (given) => ({ mayPrepare: mayAppend(given('role') as 'volunteer', 'syringes-prepared') }),
  'CP-15': () => ({ quarantine: sectionDefaults.quarantine.wear.map((key) => key.replace('wear.', '')) }),
};
