import { describe, expect, it } from 'vitest';
import { at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { orderSchedule } from '../../../core/animal/vet-order.js';
import { AnimalId, ProductId } from '../../../core/ids.js';
import { productOf } from '../../bedside/next-step.js';
import { type NewOrder, writeOrder } from '../../commands/order.js';
import { flagsIn } from '../../flags/flags.js';
import { drawUpsFor } from '../../prepare/draw-ups.js';
import { asNeededOf } from '../round/as-needed.js';
import { buildWorld, dueIn } from '../world.js';
import { doseFor } from './dose.js';
import { judgeOrder } from './order-judged.js';

/** A kitten of 743 g, 12 weeks old, and orders for it; the drugs are those of the starter formulary. */
const on = '2026-03-12';
const pip = AnimalId.parse('pip');
const mara = { id: 'mara' as never, licence: 'INVENTED-1' };
const base: NewOrder = {
  name: 'Doxycycline',
  treat: { is: 'product', product: ProductId.parse('doxycycline-10') },
  dose: { amount: '5', unit: 'mg-per-kg', per: 'time' },
  starts: day(on),
  timing: { is: 'as-needed', reason: 'sneezing' },
  leastHours: 6,
  ends: { is: 'after-days', days: 10 },
};

function kitten(born = '2025-12-20') {
  const log = ward();
  log.take('pip', born);
  log.one('animal-weighed', 'animal:pip', { grams: 743, entered: '743 g' }, at(on, '07:00'));
  const world = () => buildWorld(log.records);
  const animal = () => {
    const found = world().animals.get(pip);
    if (found === undefined) throw new Error('no animal');
    return found;
  };
  const order = (more: Partial<NewOrder> = {}) =>
    writeOrder(world().shelter, mara, pip, { ...base, ...more }, at(on, '08:00'), null, animal().orders);
  const placed = (more: Partial<NewOrder> = {}) => {
    const drafts = order(more);
    if (!drafts.ok) throw new Error(JSON.stringify(drafts.why));
    const [record] = log.add(drafts.value, 'mara');
    if (record === undefined) throw new Error('no record');
    return orderSchedule(record.id);
  };
  const refused = (more: Partial<NewOrder> = {}) => {
    const answer = order(more);
    return answer.ok ? null : answer.why.say;
  };
  const give = (schedule: string | null, time: string, more: object = {}): void => {
    const body = { product: 'doxycycline-10', lot: null, volume_ul: 370, route: 'by mouth' };
    log.one('treatment-given', 'animal:pip', { schedule, ...body, ...more } as never, at(on, time), undefined, {
      by: 'mara',
    });
  };
  const codes = (): string[] =>
    flagsIn(world(), day(on))
      .filter(({ code }) => code.startsWith('given-'))
      .map(({ code }) => code);
  return { log, world, animal, placed, refused, give, codes };
}

describe('an order as needed on record (Verifies: PROT-R54)', () => {
  it('is at hand for whoever has the animal, and is on no list of what is due', () => {
    const { placed, world, animal } = kitten();
    const schedule = placed();
    expect(asNeededOf(world(), animal(), day(on)).map(({ line }) => [line.schedule, line.state, line.record])).toEqual([
      [schedule, 'open', null],
    ]);
    expect(dueIn(world(), animal(), day(on)).find((one) => one.schedule === schedule)).toMatchObject({
      status: 'when-needed',
      due: null,
    });
    expect(asNeededOf(world(), animal(), day('2026-03-22'))).toEqual([]);
  });

  it('is another line once something was given for it, so that a second press is known', () => {
    const { placed, world, animal, give } = kitten();
    const schedule = placed();
    give(schedule, '09:00');
    expect(asNeededOf(world(), animal(), day(on))[0]?.line.record).not.toBeNull();
    expect(asNeededOf(world(), animal(), day(on))[0]?.item.dose).toBe(2);
  });

  it('for a reason that another one has is asked about: which first', () => {
    const { placed, refused } = kitten();
    placed();
    const again = { name: 'Drops', timing: { is: 'as-needed' as const, reason: ' Sneezing' } };
    expect(refused(again)).toBe('due.order.which-first');
    expect(refused({ ...again, timing: { ...again.timing, turn: 2 } })).toBeNull();
    expect(refused({ ...again, timing: { ...again.timing, reason: 'pain' } })).toBeNull();
  });
});

describe('a dose sooner, or more often in a day, than its order lets it (Verifies: LOG-R189)', () => {
  it('is a stop for desk and medical team, and one in time is none', () => {
    const { placed, give, codes } = kitten();
    const schedule = placed({ mostADay: { amount: '2', unit: 'times' } });
    give(schedule, '09:00');
    give(schedule, '15:00');
    expect(codes()).toEqual([]);
    give(schedule, '21:30');
    expect(codes()).toEqual(['given-order-too-soon']);
  });

  it('is told once: two doses for one time of an order are the same twice', () => {
    const { placed, give, codes } = kitten();
    const schedule = placed({ timing: { is: 'times', times: ['09:00', '20:00'] as never }, leastHours: null });
    give(schedule, '09:00', { dueAt: { on, at: '09:00' } });
    give(schedule, '20:00', { dueAt: { on, at: '20:00' } });
    expect(codes()).toEqual([]);
    give(schedule, '20:30', { dueAt: { on, at: '20:00' } });
    expect(codes()).toEqual(['given-twice']);
  });

  it('also of an order by times, where the order names a limit itself', () => {
    const times = { is: 'times' as const, times: ['09:00', '10:00'] as never };
    const plain = kitten();
    const own = plain.placed({ timing: times, leastHours: null });
    plain.give(own, '09:30', { dueAt: { on, at: '09:00' } });
    plain.give(own, '10:00', { dueAt: { on, at: '10:00' } });
    expect(plain.codes()).toEqual([]);
    const limited = kitten();
    const schedule = limited.placed({ timing: times, leastHours: 1 });
    limited.give(schedule, '09:30', { dueAt: { on, at: '09:00' } });
    limited.give(schedule, '10:00', { dueAt: { on, at: '10:00' } });
    expect(limited.codes()).toEqual(['given-order-too-soon']);
  });
});

describe('what an order leaves open or says in two ways is asked about (Verifies: PROT-R56)', () => {
  it.each([
    ['5-10 mg/kg', 'due.order.range-open'],
    ['5 to 10 mg per kg', 'due.order.range-open'],
    ['5\u201310 mg', 'due.order.range-open'],
    ['1 or 2 tablets', 'due.order.range-open'],
    ['5 mg to 10 mg', 'due.order.range-open'],
    ['10 mg per kg', null],
    ['10 mg on day 1 to 3', null],
  ])('in words: %s', (amount, why) => {
    const { refused } = kitten();
    expect(refused({ dose: null, amount })).toBe(why);
    expect(refused({ dose: null, amount, chosenBy: 'who-gives' })).toBeNull();
  });

  it('and so is a most that the distance never lets it reach', () => {
    const { refused } = kitten();
    expect(refused({ mostADay: { amount: '5', unit: 'times' } })).toBe('due.order.most-never-reached');
    expect(refused({ mostADay: { amount: '4', unit: 'times' } })).toBeNull();
  });

  it('and what the medical team is to choose stops for everybody else', () => {
    const { placed, world, animal } = kitten();
    const schedule = placed({ dose: null, amount: '5 to 10 mg per kg', chosenBy: 'medical' });
    const product = world().shelter.formulary?.products.find(({ id }) => id === 'doxycycline-10');
    if (product === undefined) throw new Error('no product');
    const stops = (role: 'volunteer' | 'medical') =>
      doseFor(world().shelter, animal(), product, at(on, '09:00'), day(on), { schedule, role })
        ?.gates.filter(({ severity }) => severity === 'stop')
        .map(({ code }) => code);
    expect(stops('volunteer')).toEqual(['not-yours-to-give']);
    expect(stops('medical')).toEqual([]);
  });
});

describe('the way in of an order (Verifies: PROT-R57)', () => {
  it('is that of the card, the sheet and the record, without the place of another way', () => {
    const { placed, world, animal, give, codes } = kitten();
    const schedule = placed({ route: 'into a vein', timing: { is: 'days', every: 1 }, leastHours: null });
    const item = dueIn(world(), animal(), day(on)).find((one) => one.schedule === schedule);
    const [drawUp] = drawUpsFor(world(), [{ animal: pip, schedules: [schedule] }], at(on, '09:00'));
    const line = asNeededOf(world(), animal(), day(on))[0]?.line ?? ({ schedule, animal: pip } as never);
    expect(productOf(world(), line, item)).toMatchObject({ route: 'into a vein', site: '', siteCode: null });
    expect(drawUp?.product.route).toBe('into a vein');
    give(schedule, '09:00', { route: 'into a vein', volume_ul: 370 });
    expect(codes()).toEqual([]);
    give(schedule, '20:00', { route: 'by mouth' });
    expect(codes()).toContain('given-other-way');
  });

  it('is to be confirmed when it is another than the formulary has', () => {
    const { placed, world, animal } = kitten();
    placed({ route: 'into a vein' });
    const [order] = animal().orders;
    if (order === undefined) throw new Error('no order');
    const judge = (route: 'into a vein' | 'by mouth' | null) =>
      judgeOrder(
        world().shelter,
        animal(),
        { ...order.terms, leastHours: 12, route },
        at(on, '09:00'),
        day(on),
      )[0]?.beyond.map(({ why }) => why.say);
    expect(judge('into a vein')).toEqual(['dose.gate.other-route']);
    expect(judge('by mouth')).toEqual([]);
    expect(judge(null)).toEqual([]);
  });
});

/** Maropitant: 10 mg per mL, from 16 weeks by its label in the starter formulary; the kitten is 12 weeks old. */
describe('a stop of the label (Verifies: PROT-R58)', () => {
  const vomiting = {
    name: 'Maropitant',
    treat: { is: 'product' as const, product: ProductId.parse('maropitant-10') },
    dose: { amount: '1', unit: 'mg-per-kg' as const, per: 'time' as const },
    timing: { is: 'days' as const, every: 1 },
    leastHours: null,
  };
  const opens = [{ gate: 'below-label-age' as const, reason: 'Vomits all day.', until: day('2026-03-14') }];
  const word = { product: 'maropitant-10', gates: ['below-label-age'], vet: 'mara', how: 'in-person', reason: 'Yes.' };
  const stops = ({ world, animal }: ReturnType<typeof kitten>, schedule: string | null, when = on) => {
    const product = world().shelter.formulary?.products.find(({ id }) => id === 'maropitant-10');
    if (product === undefined) throw new Error('no product');
    const opened = [
      {
        record: 'w' as never,
        ...word,
        gates: ['below-label-age' as const],
        by: 'mara' as never,
        until: day('2026-04-01'),
      },
    ] as never;
    return doseFor(world().shelter, animal(), product, at(when, '09:00'), day(when), {
      schedule: schedule as never,
      opened,
    })
      ?.gates.filter(({ severity }) => severity === 'stop')
      .map(({ code }) => code)
      .filter((code) => code === 'below-label-age');
  };

  it('stands on an order that did not open it, whatever word there is for the product', () => {
    const own = kitten();
    const schedule = own.placed(vomiting);
    expect(stops(own, schedule)).toEqual(['below-label-age']);
    expect(stops(own, null)).toEqual([]);
  });

  it('is open on the lines of the order that opened it, to its last day, and on no others', () => {
    const own = kitten();
    const schedule = own.placed({ ...vomiting, opens });
    expect([on, '2026-03-14', '2026-03-15'].map((when) => stops(own, schedule, when))).toEqual([
      [],
      [],
      ['below-label-age'],
    ]);
  });

  it('is said at ordering, apart from what else will stop it', () => {
    const { placed, animal, world } = kitten();
    placed(vomiting);
    const [order] = animal().orders;
    if (order === undefined) throw new Error('no order');
    const [judged] = judgeOrder(world().shelter, animal(), order.terms, at(on, '09:00'), day(on));
    expect(judged?.label.map(({ code }) => code)).toEqual(['below-label-age']);
    expect(judged?.ahead.map(({ code }) => code)).not.toContain('below-label-age');
  });

  it('that was passed without the order is flagged, and that the order opened is not', () => {
    for (const [more, wanted] of [
      [{}, ['given-under-label']],
      [{ opens }, []],
    ] as const) {
      const { placed, give, codes } = kitten();
      const schedule = placed({ ...vomiting, ...more });
      give(schedule, '09:00', { product: 'maropitant-10', volume_ul: 70, route: 'under the skin' });
      expect(codes().filter((code) => code === 'given-under-label')).toEqual(wanted);
    }
  });
});
