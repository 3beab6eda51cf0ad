import { describe, expect, it } from 'vitest';
import { at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { amountElsewhere } from '../../../core/animal/order-amount.js';
import { type OrderTerms, orderSchedule } from '../../../core/animal/vet-order.js';
import { AnimalId, PersonId, ProductId } from '../../../core/ids.js';
import { drawUpsFor } from '../../prepare/draw-ups.js';
import { prepareRound } from '../../prepare/prepare.js';
import { buildWorld, dueIn } from '../world.js';
import { doseFor } from './dose.js';
import { judgeOrder } from './order-judged.js';

const pip = AnimalId.parse('pip');
const now = at('2026-03-12', '12:00');
const words = '10 mg per kg once a day with food';

/** The cat of the trial: 743 g, doxycycline ordered in words for ten days. */
function ordered(more: Partial<OrderTerms> = {}) {
  const log = ward();
  log.take('pip', '2025-12-20');
  log.one('animal-weighed', 'animal:pip', { grams: 743, entered: '743 g' }, at('2026-03-12', '10:00'));
  const order = {
    name: 'Doxycycline',
    treat: { is: 'product' as const, product: ProductId.parse('doxycycline-10') },
    amount: words,
    starts: day('2026-03-12'),
    startsAt: null,
    timing: { is: 'days' as const, every: 1 },
    ends: { is: 'after-days' as const, days: 10 },
    leastHours: null,
    stopWhen: [],
    holdWhen: [],
    why: '',
    vet: PersonId.parse('mara'),
    ...more,
  };
  const record = log.one('order-written', 'animal:pip', { order }, at('2026-03-12', '08:00'), undefined, {
    by: 'mara',
  });
  const schedule = orderSchedule(record.id);
  const world = buildWorld(log.records);
  const [drawUp] = drawUpsFor(world, [{ animal: pip, schedules: [schedule] }], now);
  const animal = world.animals.get(pip);
  if (drawUp === undefined || animal === undefined) throw new Error('nothing is due');
  const item = dueIn(world, animal, day('2026-03-12')).find((one) => one.schedule === schedule);
  return { world, drawUp, item };
}

/** 10 mg per kg of 743 g are 0.743 mL of 10 mg per mL; the formulary's 5 mg per kg, 0.37 mL, stood in its place. */
describe('an order whose amount is words (Verifies: DOSE-R40)', () => {
  it('gives its words and no figure of any kind: no volume, no mark, no drug, no dose of a course', () => {
    const { drawUp } = ordered();
    expect(drawUp.dose).toMatchObject({
      inWords: words,
      exact_ul: null,
      exact_ug: null,
      unrounded_ul: null,
      mgPerKg: null,
      pieces: null,
      drawn: null,
      total_ul: null,
      stopped: false,
      trace: [],
    });
    expect(drawUp).toMatchObject({ course: null, syringe: null });
  });
  it('is said on the due list, and counted on the cart as not worked out', () => {
    const { world, item } = ordered();
    expect(item).toMatchObject({ inWords: words, because: { say: 'due.order', with: { amount: words } } });
    const { cart } = prepareRound(
      world,
      world.shelter.sections.map((one) => one.id),
      now,
    );
    const own = cart.products.find(({ product }) => product.id === 'doxycycline-10');
    expect(own).toMatchObject({ doses: 1, inWords: 1, volume_ul: null });
  });
  it('keeps what does not hang on the amount: the label’s age still stops', () => {
    const { drawUp } = ordered({ treat: { is: 'product', product: ProductId.parse('maropitant-10') } });
    expect(drawUp.dose.gates).toMatchObject([{ code: 'below-label-age', severity: 'stop' }]);
    expect(drawUp.dose).toMatchObject({ stopped: true, exact_ul: null });
  });
  it('an order that leaves the amount to the formulary has it, but not the formulary’s course', () => {
    const { drawUp, item } = ordered({ amount: '' });
    expect(drawUp.dose).toMatchObject({ inWords: null, total_ul: 370 });
    expect(drawUp.course).toBeNull();
    expect(item?.inWords).toBeUndefined();
    expect(item?.because).toMatchObject({ with: { amount: 'none' } });
    expect(ordered({ amount: '', ends: { is: 'after-doses', doses: 3 } }).drawUp.course).toMatchObject({
      number: 1,
      of: 3,
    });
  });
});

/** The order of the trial: the amount in the name and in the reason, 0.31 mL of the formulary (5 mg per kg) on the label. */
describe('an amount that stands in another field of the order (Verifies: DOSE-R60)', () => {
  it('is an order in words, without any figure of the formulary', () => {
    const { drawUp, item } = ordered({ name: 'Doxycycline 10 mg/kg', amount: '', why: '10 mg/kg twice a day' });
    expect(drawUp.dose).toMatchObject({
      inWords: 'Doxycycline 10 mg/kg; 10 mg/kg twice a day',
      exact_ul: null,
      drawn: null,
    });
    expect(item).toMatchObject({ inWords: 'Doxycycline 10 mg/kg; 10 mg/kg twice a day' });
  });
  it.each([
    ['10 mg per kg', true],
    ['5mg', true],
    ['0.3 mL by mouth', true],
    ['2.5 µg/kg', true],
    ['half a tablet', true],
    ['1/2 tablet', true],
    ['½ tablet', true],
    ['4 units', true],
    ['two drops in each eye', true],
    ['twice the usual dose', true],
    ['Doxycycline', false],
    ['twice a day for 10 days', false],
    ['suspension 10 mg/mL', false],
    ['suspension 10 mg per mL', false],
    ['weighs 743 g, cell 5 upstairs', false],
    ['eye drops, left', false],
  ])('%s: an amount? %s', (why, is) => {
    const treat = { is: 'product' as const, product: ProductId.parse('doxycycline-10') };
    expect(amountElsewhere({ treat, amount: '', name: 'x', why })).toEqual(is ? ['why'] : []);
    expect(amountElsewhere({ treat, amount: '5 mg', name: 'x', why })).toEqual([]);
  });
});

describe('an order without an amount for what has none of its own (Verifies: DOSE-R61)', () => {
  it('says that the order gives no amount, not that one is needed', () => {
    const { drawUp } = ordered({ treat: { is: 'product', product: ProductId.parse('saline-0-9') }, amount: '' });
    expect(drawUp.dose.gates[0]).toMatchObject({
      code: 'amount-by-order',
      severity: 'stop',
      why: { say: 'dose.gate.order-without-amount' },
    });
  });
});

/** The same cat, and the order as a figure: 10 mg per kg of 743 g, 0.74 mL at the mark. */
describe('an order whose amount is a figure (Verifies: PROT-R51)', () => {
  const dose = { amount: '10', unit: 'mg-per-kg' as const, per: 'time' as const };

  it('is one amount on the draw-up, the cart and the due list', () => {
    const { world, drawUp, item } = ordered({ amount: 'after a meal', dose });
    expect(drawUp.dose).toMatchObject({ inWords: null, unrounded_ul: '743', total_ul: 740, stopped: false });
    expect(drawUp.dose.byOrder).toMatchObject({ say: 'order.dose.each' });
    expect(item?.inWords).toBeUndefined();
    expect(item?.asks?.map(({ say }) => say)).toEqual(['due.order.amount', 'due.order.amount']);
    const { cart } = prepareRound(
      world,
      world.shelter.sections.map((one) => one.id),
      now,
    );
    expect(cart.products.find(({ product }) => product.id === 'doxycycline-10')).toMatchObject({
      doses: 1,
      inWords: 0,
      volume_ul: 740,
    });
  });

  it('is read by people where its words say another amount', () => {
    expect(ordered({ amount: 'give 2 mL', dose }).drawUp.dose).toMatchObject({ inWords: 'give 2 mL', total_ul: null });
  });

  it('goes by the day of the time that is open, a little after midnight too', () => {
    const steps = [{ fromDay: 2, dose: { ...dose, amount: '5' }, timing: null }];
    const { world } = ordered({ amount: '', dose, steps, timing: { is: 'times', times: ['08:00', '20:00'] } });
    const animal = world.animals.get(pip);
    const [placed] = animal?.orders ?? [];
    const product = world.shelter.formulary?.products.find(({ id }) => id === 'doxycycline-10');
    if (animal === undefined || placed === undefined || product === undefined) throw new Error('nothing is ordered');
    const schedule = orderSchedule(placed.record);
    const perKg = (on: string, time: string) =>
      doseFor(world.shelter, animal, product, at(on, time), day(on), { schedule })?.mgPerKg;
    expect(perKg('2026-03-12', '21:00')).toBe('10');
    expect(perKg('2026-03-13', '00:30')).toBe('10');
    expect(perKg('2026-03-13', '09:00')).toBe('5');
  });
});

describe('what an order comes to on the day it is written (Verifies: PROT-R52)', () => {
  const judged = (amount: string, more: Partial<OrderTerms> = {}) => {
    const dose = { amount, unit: 'mg-per-kg' as const, per: 'time' as const };
    const { world } = ordered({ amount: '', dose, ...more });
    const animal = world.animals.get(pip);
    const [placed] = animal?.orders ?? [];
    if (animal === undefined || placed === undefined) throw new Error('nothing is ordered');
    return judgeOrder(world.shelter, animal, placed.terms, now, day('2026-03-12')).map(
      ({ from, dose, refused, beyond }) => ({
        from,
        ul: dose.exact_ul,
        refused: refused.map(({ code }) => code),
        beyond: beyond.map(({ why }) => why.say),
      }),
    );
  };

  it('is its volume, and nothing to confirm inside the limits', () => {
    expect(judged('10')).toEqual([{ from: '2026-03-12', ul: 743, refused: [], beyond: [] }]);
  });

  it('is to be confirmed outside of them, each figure by itself', () => {
    const step = { amount: '0.5', unit: 'mg-per-kg' as const, per: 'time' as const };
    expect(judged('30', { steps: [{ fromDay: 4, dose: step, timing: null }] })).toMatchObject([
      { from: '2026-03-12', beyond: ['dose.gate.over-band'], refused: [] },
      { from: '2026-03-15', beyond: ['dose.gate.under-band'], refused: [] },
    ]);
  });

  it('says what else will stop it: a volume that no syringe holds, an age under the label', () => {
    const ahead = (more: Partial<OrderTerms>) => {
      const { world } = ordered(more);
      const animal = world.animals.get(pip);
      const [placed] = animal?.orders ?? [];
      if (animal === undefined || placed === undefined) throw new Error('nothing is ordered');
      const judged = judgeOrder(world.shelter, animal, placed.terms, now, day('2026-03-12'));
      return judged.flatMap((one) => [...one.ahead, ...one.label].map(({ code }) => code));
    };
    const large = { amount: '60', unit: 'mL' as const, per: 'time' as const };
    expect(ahead({ amount: '', dose: large })).toContain('no-syringe');
    const young = { treat: { is: 'product' as const, product: ProductId.parse('maropitant-10') }, amount: '' };
    expect(ahead(young)).toContain('below-label-age');
    expect(ahead({ amount: '', dose: { ...large, amount: '0.5' } })).toEqual([]);
  });

  it('is refused for what no cat may have', () => {
    const dog = { is: 'product' as const, product: ProductId.parse('selamectin-120-dog') };
    expect(judged('6', { treat: dog })[0]?.refused).toContain('not-for-species');
  });

  it('is looked at without a figure, too: another species is refused, words come to nothing', () => {
    const dog = { is: 'product' as const, product: ProductId.parse('selamectin-120-dog') };
    expect(judged('10', { dose: null, treat: dog })[0]?.refused).toContain('not-for-species');
    expect(judged('10', { dose: null, amount: 'some' })).toMatchObject([{ ul: null, refused: [], beyond: [] }]);
  });

  it('is to be confirmed when it is more often in a day than the formulary gives it', () => {
    const hourly = { timing: { is: 'hours' as const, every: 1 }, startsAt: '08:00' as never };
    expect(judged('5', hourly)).toMatchObject([{ beyond: ['dose.gate.ordered-often'] }]);
    expect(judged('5', { timing: { is: 'hours', every: 24 }, startsAt: '08:00' as never })).toMatchObject([
      { beyond: [] },
    ]);
  });

  it('is refused in a unit that the product is not measured in', () => {
    const pieces = { amount: '2', unit: 'pieces' as const, per: 'time' as const };
    expect(judged('1', { dose: pieces })[0]?.refused).toEqual(['not-in-this-unit']);
    const tablet = { is: 'product' as const, product: ProductId.parse('praziquantel-tablet-23') };
    const ml = { amount: '1.5', unit: 'mL' as const, per: 'time' as const };
    expect(judged('1', { dose: ml, treat: tablet })[0]?.refused).toEqual(['not-in-this-unit']);
  });

  it('may be a fluid that only an order has an amount of', () => {
    const saline = { is: 'product' as const, product: ProductId.parse('saline-0-9') };
    const ml = { amount: '5', unit: 'mL' as const, per: 'time' as const };
    expect(judged('1', { dose: ml, treat: saline })).toMatchObject([{ ul: 5000, refused: [], beyond: [] }]);
  });
});
