import { addDays, dayNumber } from '../../../src/core/calendar.js';
import { doseOf } from '../../../src/core/dosing/dose.js';
import type { Gate } from '../../../src/core/dosing/gate.js';
import { aboutConditions } from '../../../src/core/protocol/about-conditions.js';
import { worthFor } from '../../../src/core/protocol/input.js';
import { cat, seen, starter, weight } from '../../support/protocol.js';
import type { Asks, Given } from './ask.js';
import { formulary, found, now, productOf, today } from './product.js';

/** What a label says of whom a product may go to, and against what: the stops of the draw-up, and the claims. */
interface Whom {
  readonly ageDays?: number;
  readonly grams?: number;
  readonly codes?: readonly string[];
}

function stops(id: string, { ageDays = 700, grams = 3000, codes = [] }: Whom): Gate[] {
  const animal = cat({
    born: addDays(today, -ageDays),
    sex: codes.includes('pregnant') || codes.includes('nursing') ? 'female' : 'male',
    observations: codes.map((code) => seen(code, today)),
    weighings: [weight(today, grams)],
  });
  const day = dayNumber(today);
  const { gates } = doseOf({
    product: productOf(id),
    formulary,
    weighing: { grams, at: now, doubtful: false },
    ageDays: { youngest: ageDays, oldest: ageDays },
    today,
    now,
    syringes: formulary.syringes.map((one) => one.id),
    about: aboutConditions({ animal, formulary }, day, day),
  });
  return gates.filter(
    ({ code, severity }) => severity === 'stop' && (code.startsWith('if-') || code.startsWith('below-label')),
  );
}
export const ok = (id: string, whom: Whom): boolean => stops(id, whom).length === 0;
export const veterinarian = (id: string, whom: Whom): boolean =>
  stops(id, whom).some(({ why }) => why.say === 'dose.gate.if-ask-veterinarian');
/** The code where the fact is given. */
export const when = (given: Given, key: string, code: string): string[] => (given(key) === 'true' ? [code] : []);
export const numbers = (given: Given, key: string): number[] => given.list(key).map(Number);

/** A product by the names of what is in it, as the source lists them. */
const claimsOf = (named: string): readonly string[] => {
  const names = named.replace(' tablet', '').split(' + ').sort().join();
  const product = formulary.products.find(
    ({ ingredients, species }) =>
      species.includes('cat') &&
      ingredients
        .map(({ name }) => name)
        .sort()
        .join() === names,
  );
  return found(product?.claims, `claim of ${named}`).of;
};
const covers = (given: Given) => ({ covers: [...claimsOf(given('ingredient'))] });

export const labelClaims: Asks = {
  'CONTRA-01': (given) => ({
    us: numbers(given, 'ageDays').map((ageDays) => ok('selamectin-60', { ageDays, grams: 900 })),
  }),
  'CONTRA-02': (given) => ({ ok: ok('selamectin-60', { codes: when(given, 'ill', 'ill') }) }),
  'CONTRA-03': (given) => ({ ok: ok('selamectin-60', { codes: when(given, 'coatWet', 'wet-coat') }) }),
  'CONTRA-04': (given) => ({
    ok: numbers(given, 'ageDays').map((ageDays) => ok('imidacloprid-moxidectin-cat', { ageDays, grams: 1100 })),
  }),
  'CONTRA-05': (given) => ({
    vetDecision: numbers(given, 'g').map((grams) => veterinarian('imidacloprid-moxidectin-cat', { grams })),
  }),
  'CONTRA-09': (given) => ({ ok: ok('fipronil-100', { codes: when(given, 'convalescent', 'convalescent') }) }),
  'CONTRA-10': (given) => ({ ok: ok('selamectin-sarolaner', { codes: when(given, 'underweight', 'thin') }) }),
  'CONTRA-11': (given) => {
    const codes = when(given, 'pregnant', 'pregnant');
    return {
      auto: ok('selamectin-sarolaner', { codes }),
      vetDecision: veterinarian('selamectin-sarolaner', { codes }),
      selamectinAloneSafe: ok('selamectin-60', { codes }),
    };
  },
  'CLASS-02': covers,
  'CLASS-03': covers,
  'CLASS-04': covers,
  'CLASS-05': covers,
  'CLASS-10': (given) => {
    const product = (named: string) =>
      found(
        formulary.products.find(({ ingredients }) => ingredients.map(({ name }) => name).join(' + ') === named),
        named,
      );
    const ids = given.list('given').map((named) => product(named).id);
    const open = given.list('need').filter((need) => {
      const schedule = found(
        starter.schedules.find(({ claims }) => claims.includes(need)),
        `schedule for ${need}`,
      );
      return !ids.some((id) => typeof worthFor({ formulary }, schedule, id) === 'string');
    });
    return { open };
  },
};
