import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../test/support/documents.js';
import { CalendarDate } from '../calendar.js';
import { exactly } from '../quantity/exact.js';
import { contradictions } from './before-signing.js';
import { doseOf } from './dose.js';
import type { DoseQuestion } from './dose-question.js';
import { Product } from './formulary.js';
import { labelGrams } from './label-weight.js';

const starter = starterFormulary();
const now = '2026-03-12T15:00:00Z';
const today = CalendarDate.parse('2026-03-12');
const named = (id: string): Product => {
  const found = starter.products.find((one) => one.id === id);
  if (found === undefined) throw new Error(id);
  return found;
};
const dose = (product: string | Product, grams: number, ageDays: number, more: Partial<DoseQuestion> = {}) =>
  doseOf({
    product: typeof product === 'string' ? named(product) : product,
    formulary: starter,
    weighing: { grams, at: '2026-03-12T14:00:00Z', doubtful: false },
    ageDays: { youngest: ageDays, oldest: ageDays },
    today,
    now,
    syringes: starter.syringes.map((one) => one.id),
    ...more,
  });
const stops = (of: ReturnType<typeof dose>) => of.gates.filter((one) => one.severity === 'stop').map((one) => one.code);
const codes = (of: ReturnType<typeof dose>) => of.gates.map((one) => one.code);

describe('printed and fixed amounts have an end (Verifies: DOSE-R36, DOSE-R10)', () => {
  it('mirtazapine, 2 mg for every cat, stops on 500 g: 4 mg per kg', () => {
    const kitten = dose('mirtazapine-ointment-20', 500, 70);
    expect(kitten.mgPerKg).toBe('4');
    expect(stops(kitten)).toEqual(['below-label-age', 'below-label-weight', 'outside-band']);
  });
  // NOAH Compendium, record -479120: not under 7.5 months of age or 2 kg.
  it.each([
    ['2.5 kg at 5 months', 2500, 150, ['below-label-age']],
    ['1.99 kg, grown up', 1990, 900, ['below-label-weight', 'outside-band']],
    ['2 kg at 7.5 months: born on 25 July 2025', 2000, 230, []],
    ['the day before', 2000, 229, ['below-label-age']],
    ['4 kg, grown up', 4000, 900, []],
  ])('mirtazapine for %s', (_, grams, days, wanted) => {
    expect(stops(dose('mirtazapine-ointment-20', grams, days))).toEqual(wanted);
  });
  // Verifies: DOSE-R81. 21 CFR 524.1448: 20 mg in a gram, 2 mg for every cat.
  it('an ointment is counted in grams: 0.1 g of 20 mg per g are 2 mg, and no volume', () => {
    const cat = dose('mirtazapine-ointment-20', 4000, 900);
    expect(cat).toMatchObject({ exact_ul: null, exact_ug: 2000, mgPerKg: '0.5', drawn: null, stopped: false });
    expect(cat.pieces).toMatchObject({ with: { n: '1.5-inch ribbon' } });
    expect(JSON.stringify(cat.trace)).toContain('0.1\u00a0g');
    const { ingredients, ...rest } = named('mirtazapine-ointment-20');
    const volume = Product.parse({ ...rest, ingredients: ingredients.map((one) => ({ ...one, mg_per_g: null })) });
    expect(contradictions({ ...starter, products: [volume] }).map((one) => one.say)).toEqual(['dose.fault.no-grams']);
  });
  it('an order in mg for an ointment is its own strip or none', () => {
    const order = (amount: string, unit: 'mg' | 'mL') =>
      dose('mirtazapine-ointment-20', 4000, 900, {
        ordered: { is: 'figure', dose: { amount, unit, per: 'time' }, timesADay: exactly(1), meant: false },
      });
    expect(order('2', 'mg')).toMatchObject({
      exact_ug: 2000,
      pieces: { with: { n: '1.5-inch ribbon' } },
      stopped: false,
    });
    expect(stops(order('1', 'mg'))).toEqual(['not-in-this-unit']);
    expect(stops(order('0.1', 'mL'))).toEqual(['not-in-this-unit']);
  });
  it('every printed or fixed amount in mg of the starter has one, and a formulary without is not signed', () => {
    expect(contradictions(starter)).toEqual([]);
    const { stopAbove_mg_per_kg: _, ...open } = named('mirtazapine-ointment-20');
    const without = { ...starter, products: [Product.parse(open)] };
    expect(contradictions(without).map((one) => one.say)).toEqual(['dose.fault.no-end']);
  });
  it('tablets, too: half of 23 mg on 300 g are 38.3333 mg per kg', () => {
    const tablet = dose('praziquantel-tablet-23', 300, 60);
    expect(tablet.mgPerKg).toBe('38.3333');
    expect(stops(tablet)).toEqual(['outside-band']);
    expect(dose('praziquantel-tablet-23', 3000, 600)).toMatchObject({
      exact_ug: 23000,
      exact_ul: null,
      stopped: false,
    });
  });
  it('the tube of imidacloprid has no band of our own below 1 kg, it stops at its end', () => {
    const [gate] = dose('imidacloprid-tube-0-4', 900, 63).gates;
    expect(gate?.why).toMatchObject({ say: 'dose.gate.over-most' });
  });
});

/** Fluid, Electrolyte, and Acid-Base Disorders, p. 342: about 10 mL per kg in one place; no dose is read from it. */
describe('a fluid has no volume of its own (Verifies: DOSE-R42)', () => {
  it('500 g: no volume; 5 mL is said as the limit of one place', () => {
    const fluid = dose('saline-0-9', 500, 70);
    expect(fluid).toMatchObject({ exact_ul: null, drawn: null, stopped: true });
    expect(stops(fluid)).toEqual(['amount-by-order']);
    const limit = fluid.gates.find((one) => one.code === 'limit-of-place');
    expect(limit).toMatchObject({ severity: 'note', why: { with: { places: 3 } } });
    expect(String(limit?.why.with?.most)).toMatch(/^5\smL$/);
  });
  it('4.5 kg: no syringe is looked for that measures 45 mL', () => {
    expect(codes(dose('saline-0-9', 4500, 900))).toEqual(['amount-by-order', 'limit-of-place']);
  });
  it('by an order in words it may be given, with the limit beside the words', () => {
    const ordered = dose('saline-0-9', 500, 70, { ordered: { is: 'words', words: '8 mL under the skin' } });
    expect(ordered).toMatchObject({ inWords: '8 mL under the skin', exact_ul: null, stopped: false });
    expect(codes(ordered)).toEqual(['limit-of-place']);
  });
});

/** 21 CFR 524.775 (emodepside, 3 mg per kg at least) and 524.838 (0.12 mL per kg at least). */
describe('the least of a label (Verifies: DOSE-R43)', () => {
  it.each([
    // 0.3365 mL of 21.4 mg per mL are 3 mg per kg of 2.4 kg; the mark below, 0.335 or 0.33 mL, is under it.
    ['emodepside-praziquantel', 2400],
    ['esafoxolaner-eprinomectin-praziquantel', 2110],
  ])('%s at %i g: what is drawn is held against it', (id, grams) => {
    const answer = dose(id, grams, 400);
    const { least } = named(id);
    if (least === null || answer.total_ul === null || answer.unrounded_ul === null) throw new Error('nothing drawn');
    const under = answer.total_ul < Number(answer.unrounded_ul);
    expect(codes(answer).includes('under-least')).toBe(under);
    // A coarse syringe that must go down is under it for certain.
    const down = Product.parse({ ...named(id), rounding: 'down' });
    const coarse = dose(down, grams, 400, { syringes: ['tuberculin-1' as never] });
    expect(codes(coarse)).toContain('under-least');
    expect(coarse.stopped).toBe(false);
  });
});

/** Labels that print pounds keep them: 21 CFR 520.2220b, 520.88b, 522.1870, 520.1441, 524.815, as in the formulary. */
describe('rules stay in the unit of their label (Verifies: DOSE-R44)', () => {
  it.each([
    ['sulfadimethoxine-50-first-day', '25 mg per lb', { by: 'mg-per-lb', usual: '25' }],
    ['sulfadimethoxine-50', '12.5 mg per lb', { by: 'mg-per-lb', usual: '12.5' }],
    ['amoxicillin-50', '5 to 10 mg per lb', { by: 'mg-per-lb', usual: '5', high: '10' }],
    ['amoxicillin-injection', '5 mg per lb', { by: 'mg-per-lb', usual: '5' }],
  ])('%s: %s', (id, _, rule) => {
    expect(named(id).dose).toMatchObject(rule);
  });
  it('25 mg per lb on 2 lb: 1 mL on the first day as printed, to the whole gram of the scale', () => {
    // 907 g are 2 lb less 0.185 g: 999.8 microlitres by hand (25,000 x 907 / 453.59237 / 50).
    expect(dose('sulfadimethoxine-50-first-day', 907, 400).unrounded_ul).toBe('999.796359');
  });
  it.each([
    ['milbemycin-tablet-5-75', '1.5', 680],
    ['eprinomectin-praziquantel', '1.8', 816],
    ['selamectin-sarolaner', '2.8', 1270],
    ['imidacloprid-moxidectin-cat', '2', 907],
  ])('%s: %s lb is reached by a cat weighed at just that, %i g', (id, amount, grams) => {
    const { labelMinWeight } = named(id);
    expect(labelMinWeight).toEqual({ amount, unit: 'lb' });
    expect(labelMinWeight === null ? null : labelGrams(labelMinWeight)).toBe(grams);
    expect(stops(dose(id, grams, 400))).not.toContain('below-label-weight');
    expect(stops(dose(id, grams - 1, 400))).toContain('below-label-weight');
  });
});

describe('two ingredients of one family (Verifies: DOSE-R24)', () => {
  it('are each called by their own name: nothing that holds moxidectin is said to hold eprinomectin', () => {
    const recent = [{ product: named('eprinomectin-praziquantel').id, at: '2026-03-07T15:00:00Z', volume_ul: null }];
    const [gate] = dose('imidacloprid-moxidectin-cat', 3000, 400, { recent }).gates;
    expect(gate?.why).toMatchObject({
      say: 'dose.gate.family-too-soon',
      with: { own: 'moxidectin', ingredient: 'eprinomectin' },
    });
  });
});

describe('an order under the least of the label is asked about, as one over its most (Verifies: DOSE-R82)', () => {
  const ordered = (amount: string, unit: 'mg-per-kg' | 'mL-per-kg', meant: boolean) => ({
    ordered: { is: 'figure' as const, dose: { amount, unit, per: 'time' as const }, timesADay: exactly(1), meant },
  });
  it.each([
    ['selamectin-60', '5.9', 'mg-per-kg', ['outside-band']],
    ['selamectin-60', '6', 'mg-per-kg', []],
    ['emodepside-praziquantel', '2.95', 'mg-per-kg', ['outside-band']],
    ['esafoxolaner-eprinomectin-praziquantel', '0.11', 'mL-per-kg', ['outside-band']],
  ] as const)('%s %s %s', (product, amount, unit, wanted) => {
    expect(stops(dose(product, 3000, 400, ordered(amount, unit, false)))).toEqual(wanted);
    expect(stops(dose(product, 3000, 400, ordered(amount, unit, true)))).toEqual([]);
  });
});

// Verifies: DOSE-R84. A tube for every weight, with a least weight that is the veterinarian's to decide on.
describe('a condition on weight, and no weight', () => {
  it('stops at the draw-up until the animal is weighed', () => {
    const weight = {
      is: 'weight',
      under: { amount: '1', unit: 'kg' },
      over: null,
      does: 'stop',
      words: 'Not under 1 kg.',
    };
    const tube = Product.parse({
      ...named('milbemycin-ear-tube'),
      conditions: [{ ...weight, source: 'starter-choice', standing: 'common-practice' }],
    });
    expect(stops(dose(tube, 0, 70, { weighing: null }))).toEqual(['weight-missing']);
    expect(stops(dose('milbemycin-ear-tube', 0, 70, { weighing: null }))).toEqual([]);
  });
});

describe('what is given by order only (Verifies: DOSE-R83)', () => {
  const only = [
    'lactated-solution',
    'saline-0-9',
    'terbinafine-tablet-250',
    'famciclovir-tablet-125',
    'sugar-on-the-gums',
    'eye-ointment-macrolide',
    'eye-ointment-tetracycline',
    'eye-ointment-steroid',
    'meloxicam-0-5',
    'prednisolone-tablet-5',
    'buprenorphine-0-3',
    'gabapentin-oral',
  ];
  it.each(only)('%s has no amount without one', (id) => {
    const cat = dose(id, 4000, 900, { role: 'medical' });
    expect(cat).toMatchObject({ exact_ul: null, exact_ug: null, pieces: null, drawn: null, stopped: true });
    expect(stops(cat)).toEqual(['amount-by-order']);
  });
  it('a figure is held against the limits that were read', () => {
    const order = (id: string, amount: string) =>
      stops(
        dose(id, 4000, 900, {
          role: 'medical',
          ordered: {
            is: 'figure',
            dose: { amount, unit: 'mg-per-kg', per: 'time' },
            timesADay: exactly(1),
            meant: false,
          },
        }),
      );
    expect(order('meloxicam-0-5', '0.2')).toEqual([]);
    expect(order('meloxicam-0-5', '0.4')).toEqual(['outside-band']);
    expect(order('terbinafine-tablet-250', '31.25')).toEqual([]);
    expect(order('terbinafine-tablet-250', '62.5')).toEqual(['outside-band']);
    expect(order('prednisolone-tablet-5', '1.25')).toEqual([]);
    expect(order('prednisolone-tablet-5', '5')).toEqual(['outside-band']);
  });
  it('pain relief and sedation are for the medical team to give', () => {
    for (const id of ['meloxicam-0-5', 'buprenorphine-0-3', 'gabapentin-oral', 'prednisolone-tablet-5'])
      expect(named(id).mayGive).toEqual(['medical']);
  });
});
