import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CalendarDate } from '../calendar.js';
import { exactly } from '../quantity/exact.js';
import { type Dose, doseOf } from './dose.js';
import { FormularyDocument, Product } from './formulary.js';
import { OrderDose, type OrderedAmount } from './ordered.js';

/** The amount of a veterinarian's order as a figure: worked out, judged and drawn as any other. */
const formulary = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const now = '2026-03-12T15:00:00Z';
const productOf = (id: string): Product => Product.parse(formulary.products.find((one) => one.id === id));
const like = (id: string, changes: object): Product => Product.parse({ ...productOf(id), ...changes });

const figure = (amount: string, unit: string, more: { per?: 'time' | 'day'; times?: number; meant?: boolean } = {}) =>
  ({
    is: 'figure',
    dose: OrderDose.parse({ amount, unit, per: more.per ?? 'time' }),
    meant: more.meant ?? false,
    timesADay: exactly(more.times ?? 1),
  }) satisfies OrderedAmount;

const dose = (product: Product | string, grams: number | null, ordered: OrderedAmount | null): Dose =>
  doseOf({
    product: typeof product === 'string' ? productOf(product) : product,
    formulary,
    weighing: grams === null ? null : { grams, at: now, doubtful: false },
    ageDays: { youngest: 400, oldest: 400 },
    today: CalendarDate.parse('2026-03-12'),
    now,
    syringes: formulary.syringes.map(({ id }) => id),
    ordered,
  });
const gates = (answer: Dose, severity: string): string[] =>
  answer.gates.filter((gate) => gate.severity === severity).map(({ why }) => why.say);

describe('an amount that is ordered as a figure, Verifies: PROT-R51', () => {
  it('is worked out for the weight and drawn to a mark', () => {
    // 10 mg per kg of 10 mg per mL on 743 g: 7.43 mg, 0.743 mL.
    const answer = dose('doxycycline-10', 743, figure('10', 'mg-per-kg'));
    expect(answer).toMatchObject({ exact_ug: 7430, unrounded_ul: '743', mgPerKg: '10', inWords: null, stopped: false });
    expect(answer.drawn?.volume_ul).toBe(740);
    expect(answer.byOrder?.say).toBe('order.dose.each');
    expect(answer.trace.map(({ what }) => what.say)).toContain('order.dose.each');
  });

  it.each([
    ['7.43', 'mg', '743'],
    ['0.743', 'mL', '743'],
    ['1', 'mL-per-kg', '743'],
  ])('of %s %s comes to %s mcL of 10 mg per mL', (amount, unit, ul) => {
    expect(dose('doxycycline-10', 743, figure(amount, unit)).unrounded_ul).toBe(ul);
  });

  it('over a day is divided among its times, and never read as each time', () => {
    const day = dose('doxycycline-10', 2400, figure('20', 'mg-per-kg', { per: 'day', times: 2 }));
    const time = dose('doxycycline-10', 2400, figure('20', 'mg-per-kg', { times: 2 }));
    expect([day.exact_ug, time.exact_ug]).toEqual([24_000, 48_000]);
    expect(day.byOrder).toMatchObject({ say: 'order.dose.divided', with: { times: '2' } });
  });

  it('goes by the strength in the hand', () => {
    const made = like('doxycycline-10', {
      ingredients: [{ ...productOf('doxycycline-10').ingredients[0], mg_per_ml: '20' }],
    });
    expect(dose(made, 1000, figure('10', 'mg-per-kg')).unrounded_ul).toBe('500');
    const unknown = like('doxycycline-10', {
      ingredients: [{ ...productOf('doxycycline-10').ingredients[0], mg_per_ml: null }],
    });
    expect(gates(dose(unknown, 1000, figure('10', 'mg-per-kg')), 'stop')).toContain('dose.gate.no-strength');
    expect(dose(unknown, 1000, figure('1', 'mL')).unrounded_ul).toBe('1000');
  });

  it('by the weight asks for one, and for a fresh one', () => {
    expect(gates(dose('doxycycline-10', null, figure('10', 'mg-per-kg')), 'stop')).toEqual([
      'dose.gate.weight-missing',
    ]);
  });

  it('of tablets comes in quarters or not at all', () => {
    const tablet = like('praziquantel-tablet-23', {
      dose: { by: 'order' },
      band: null,
      stopAbove_mg_per_kg: null,
      least: null,
      ingredients: [{ name: 'x', mg_per_ml: null, mg_per_piece: '20' }],
    });
    const pieces = (amount: string, unit: string) => dose(tablet, 2000, figure(amount, unit)).pieces;
    expect(pieces('30', 'mg')).toMatchObject({ say: 'dose.pieces-part', with: { whole: 1, part: 'half' } });
    expect(pieces('2.5', 'mg-per-kg')).toMatchObject({ say: 'dose.pieces-part', with: { whole: 0, part: 'quarter' } });
    expect(pieces('0.75', 'pieces')).toMatchObject({ with: { n: '0.75' } });
    expect(pieces('2', 'pieces')).toMatchObject({ with: { n: '2' } });
    for (const [amount, unit] of [
      ['7', 'mg'],
      ['0.3', 'pieces'],
    ] as const) {
      const answer = dose(tablet, 2000, figure(amount, unit));
      expect(gates(answer, 'stop')).toEqual(['dose.gate.not-in-quarters']);
      expect(answer.pieces).toBeNull();
    }
  });

  it('has no course of the formulary beside it, and no amount of its own is needed', () => {
    const saline = dose('saline-0-9', 1500, figure('10', 'mL'));
    expect(saline).toMatchObject({ stopped: false, total_ul: 10_000 });
    expect(gates(dose('saline-0-9', 575, figure('60', 'mL')), 'stop')).not.toEqual([]);
  });
});

describe('what differs from the formulary, Verifies: PROT-R52', () => {
  it('stops until the veterinarian said that it is meant; then a second person works it out', () => {
    const far = figure('30', 'mg-per-kg');
    expect(gates(dose('doxycycline-10', 1000, far), 'stop')).toEqual(['dose.gate.over-band']);
    const meant = dose('doxycycline-10', 1000, figure('30', 'mg-per-kg', { meant: true }));
    expect(meant.stopped).toBe(false);
    expect(gates(meant, 'second-person')).toContain('dose.gate.over-band');
    expect(gates(dose('doxycycline-10', 1000, figure('0.5', 'mg-per-kg')), 'stop')).toEqual(['dose.gate.under-band']);
  });

  it('past the end of the product stops, meant or not', () => {
    const ended = like('doxycycline-10', { stopAbove_mg_per_kg: '25' });
    const answer = dose(ended, 1000, figure('30', 'mg-per-kg', { meant: true }));
    expect(gates(answer, 'stop')).toEqual(['dose.gate.over-most']);
  });

  it('without limits in mg per kg is held against the rule of the product itself', () => {
    const plain = like('doxycycline-10', { band: null, stopAbove_mg_per_kg: null });
    const usual = dose(plain, 1000, null).unrounded_ul ?? '0';
    const times = (n: string) => figure(exactly(usual).div(1000).mul(n).toFixed(), 'mL');
    expect(gates(dose(plain, 1000, times('1.4')), 'stop')).toEqual([]);
    expect(gates(dose(plain, 1000, times('1.5')), 'stop')).toEqual(['dose.gate.far-from-own']);
    expect(gates(dose(plain, 1000, times('0.5')), 'stop')).toEqual(['dose.gate.far-from-own']);
  });

  it('is never an amount of nothing', () => {
    for (const amount of ['0', '0.000']) {
      expect(OrderDose.safeParse({ amount, unit: 'mg', per: 'time' }).success).toBe(false);
    }
  });
});

it('the formulary’s own usual dose, ordered as a figure, is the same dose', () => {
  const rules = formulary.products.flatMap(({ id, dose: rule, ingredients, species }) =>
    rule.by === 'mg-per-kg' && ingredients[0]?.mg_per_ml != null && species.includes('cat')
      ? [{ id, usual: rule.usual }]
      : [],
  );
  expect(rules.length).toBeGreaterThan(5);
  fc.assert(
    fc.property(fc.integer({ min: 300, max: 7000 }), fc.constantFrom(...rules), (grams, { id, usual }) => {
      const [own, ordered] = [dose(id, grams, null), dose(id, grams, figure(usual, 'mg-per-kg'))];
      expect(ordered.unrounded_ul).toBe(own.unrounded_ul);
      expect(ordered.drawn).toEqual(own.drawn);
    }),
  );
});
