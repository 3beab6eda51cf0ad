import { worthFor } from '../../../src/core/protocol/input.js';
import { starter } from '../../support/protocol.js';
import type { Asks, Given } from './ask.js';
import { numbers, ok, veterinarian, when } from './label-claims.js';
import { doseAt, formulary, found, now, productOf } from './product.js';

/** Pairs of age in days and weight in grams, as the source lists them: `[42,680]`. */
const cases = (given: Given) =>
  given.list('cases').map((pair) => {
    const [ageDays = 0, grams = 0] = JSON.parse(pair) as number[];
    return { ageDays, grams };
  });
const each = (id: string) => (given: Given) => ({ ok: cases(given).map((whom) => ok(id, whom)) });
const atGrams = (id: string) => (given: Given) => ({
  ok: numbers(given, 'g').map((grams) => ok(id, { grams })),
});
const atDays = (id: string, grams: number) => (given: Given) => ({
  ok: numbers(given, 'ageDays').map((ageDays) => ok(id, { ageDays, grams })),
});
const claimed = (id: string): readonly string[] => found(productOf(id).claims, `claim of ${id}`).of;
const pieces: Readonly<Record<string, string>> = { half: '0.5' };

/** Least ages and weights of labels, and what they say of whom a product may not go to. */
export const labelLimits: Asks = {
  'CONTRA-06': atGrams('praziquantel-topical-tube-20'),
  'CONTRA-08': (given) => ({ ok: cases(given).map((whom) => ok('fipronil-100', whom)) }),
  'CONTRA-12': each('milbemycin-praziquantel-4-10'),
  'CONTRA-13': atGrams('milbemycin-praziquantel-16-40'),
  'CONTRA-14': (given) => ({
    tablets: numbers(given, 'g').map((grams) => {
      const { with: of } = found(doseAt(productOf('milbemycin-praziquantel-4-10'), `${grams} g`, 60).pieces, 'pieces');
      return pieces[String(of?.part)] ?? String(of?.n);
    }),
  }),
  'CONTRA-15': (given) => {
    const codes = when(given, 'severelyWeak', 'weak');
    const id = 'milbemycin-praziquantel-4-10';
    return { auto: ok(id, { codes, grams: 1500 }), vetDecision: veterinarian(id, { codes, grams: 1500 }) };
  },
  'CONTRA-16': each('milbemycin-tablet-5-75'),
  'CONTRA-17': each('nitenpyram-tablet-11-4'),
  'CONTRA-18': (given) => ({
    ok: ok('nitenpyram-tablet-11-4', {
      codes: [...when(given, 'pregnant', 'pregnant'), ...when(given, 'nursing', 'nursing')],
    }),
  }),
  'CONTRA-19': (given) => ({ ok: ok('meloxicam-0-5', { codes: when(given, 'nursing', 'nursing') }) }),
  'CONTRA-20': atDays('meloxicam-0-5', 700),
  'CONTRA-21': (given) => ({ ok: ok('meloxicam-0-5', { codes: when(given, 'dehydrated', 'dehydrated') }) }),
  'CONTRA-23': (given) => ({ ok: ok('prednisolone-tablet-5', { codes: when(given, 'pregnant', 'pregnant') }) }),
  'CONTRA-24': (given) => ({
    ok: ok('prednisolone-tablet-5', { codes: when(given, 'ringwormActive', 'ringworm-suspected') }),
  }),
  'CONTRA-25': (given) => ({ vetDecision: cases(given).map((whom) => veterinarian('lotilaner-tablet-12', whom)) }),
  'CONTRA-26': atDays('milbemycin-ear-tube', 700),
  'CONTRA-27': each('eprinomectin-praziquantel'),
  'CLASS-01': (given) => {
    const product = found(
      formulary.products.find(
        ({ ingredients, species }) =>
          species.includes('cat') && ingredients.map(({ name }) => name).join() === given('ingredient'),
      ),
      given('ingredient'),
    );
    return { covers: [...claimed(product.id)] };
  },
  'CLASS-06': (given) => {
    const id = given('species') === 'cat' ? 'selamectin-60' : 'selamectin-120-dog';
    return { ticks: claimed(id).includes('ticks'), sarcoptic: claimed(id).includes('sarcoptic mange') };
  },
  'CLASS-08': () => {
    const id = 'nitenpyram-tablet-11-4';
    const before = (hours: number, doses: number) =>
      doseAt(productOf(id), '2 kg', 60, {
        recent: Array.from({ length: doses }, () => ({
          product: productOf(id).id,
          at: new Date(Date.parse(now) - hours * 3_600_000).toISOString(),
          volume_ul: null,
        })),
      }).stopped;
    let most = 0;
    while (!before(1, most)) most += 1;
    return { covers: [...claimed(id)], mostPerDay: String(most) };
  },
  'CLASS-09': () => {
    const id = 'milbemycin-praziquantel-4-10';
    const flea = found(
      starter.schedules.find((one) => one.id === 'flea'),
      'flea schedule',
    );
    return { covers: [...claimed(id)], fleas: worthFor({ formulary }, flea, productOf(id).id) !== null };
  },
};
