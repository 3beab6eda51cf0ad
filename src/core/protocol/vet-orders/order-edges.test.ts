import { describe, expect, it } from 'vitest';
import {
  cat,
  catalogueOf,
  day,
  given,
  giving,
  once,
  placedHold,
  protocolOf,
  seen,
} from '../../../../test/support/protocol.js';
import type { HistoryEvent } from '../../animal/animal.js';
import { OrderTerms, orderSchedule, type PlacedOrder } from '../../animal/vet-order.js';
import { instantAt } from '../../calendar.js';
import { RecordId } from '../../ids.js';
import { dayAndTimeOf } from '../../wall-time.js';
import { evaluate } from '../engine/evaluate.js';
import { forecast } from '../engine/forecast.js';
import type { ProtocolInput } from '../input.js';
import { forecastOrders } from './order-forecast.js';
import { orderNow } from './order-now.js';

/** Orders at the minute on which one comparison decides. The shelter's clock is UTC here. */
const record = RecordId.parse('order-1');
const name = orderSchedule(record);
const catalogue = catalogueOf('drops', 'wormer', 'other', 'wormer+other');
const protocol = protocolOf(giving('wormer', [once('only', { on: { is: 'observation', code: 'worms' } })]));

const terms = (more: object = {}): OrderTerms =>
  OrderTerms.parse({
    name: 'Eye drops',
    treat: { is: 'product', product: 'drops' },
    starts: '2026-03-10',
    timing: { is: 'times', times: ['08:00', '20:00'] },
    ends: { is: 'when-ended' },
    vet: 'vera',
    ...more,
  });

const dose = (
  on: string,
  time: string,
  more: { named?: string; id?: string; product?: string; bad?: boolean } = {},
): HistoryEvent =>
  ({
    ...given(more.product ?? 'drops', on, {
      schedule: name,
      ...(more.bad ? { substandard: 'expired-lot' as const } : {}),
    }),
    record: RecordId.parse(more.id ?? `dose-${on}-${time}`),
    at: instantAt(day(on), time, 'UTC'),
    wall: time,
    dueAt: more.named === undefined ? null : { on: day(on), at: more.named },
  }) as HistoryEvent;

function under(
  order: OrderTerms,
  history: readonly HistoryEvent[] = [],
  more: object = {},
  ended: PlacedOrder['ended'] = null,
  schedule: object | null = null,
) {
  const document = schedule === null ? protocol : protocolOf(schedule);
  const orders: PlacedOrder[] = [{ record, terms: order, ended }];
  const input: ProtocolInput = {
    animal: { ...cat({ born: '2025-01-01', history, ...more }), orders },
    formulary: catalogue,
  };
  const [placed] = orders;
  if (placed === undefined) throw new Error('no order');
  return {
    on: (today: string) => {
      const item = forecast(input, document, day(today)).find((one) => one.schedule === name);
      if (item === undefined) throw new Error('no item');
      return item;
    },
    now: (on: string, time: string) => orderNow(input, placed, document, instantAt(day(on), time, 'UTC'), 'UTC'),
    worth: (today: string) => evaluate(input, document, day(today)).filter((one) => one.schedule === name),
    bare: (today: string) => forecastOrders(input, null, day(today))[0],
  };
}

describe('the minute', () => {
  it('a slot opens at its own time and closes at the next, Verifies: PROT-R30', () => {
    const ask = under(terms());
    expect(ask.now('2026-03-10', '07:59').mayDo).toBeNull();
    expect(ask.now('2026-03-10', '08:00').mayDo?.at).toBe('08:00');
    expect(ask.now('2026-03-10', '19:59').mayDo?.at).toBe('08:00');
    expect(ask.now('2026-03-10', '20:00').mayDo?.at).toBe('20:00');
    expect(ask.now('2026-03-10', '20:00').times[0]).toMatchObject({ at: '08:00', state: 'missed' });
  });

  it('midnight is a time of the first day, unless the order begins later', () => {
    const times = (more: object) =>
      under(terms({ timing: { is: 'times', times: ['00:00', '12:00'] }, ...more }))
        .on('2026-03-10')
        .times?.map((one) => one.at);
    expect(times({})).toEqual(['00:00', '12:00']);
    expect(times({ startsAt: '00:01' })).toEqual(['12:00']);
  });

  it('a dose without a name at that minute is the one that opens, Verifies: PROT-R29', () => {
    const stateAt = (time: string) =>
      under(terms(), [dose('2026-03-10', time)])
        .on('2026-03-10')
        .times?.map((one) => one.state);
    expect(stateAt('08:00')).toEqual(['done', 'open']);
    expect(stateAt('19:59')).toEqual(['done', 'open']);
    expect(stateAt('20:00')).toEqual(['open', 'done']);
  });

  it('the shortest distance is over on its own minute; without one written it is that of the nearest two times', () => {
    const order = terms({ timing: { is: 'times', times: ['08:00', '12:00', '20:00'] } });
    const ask = under(order, [dose('2026-03-10', '09:00', { named: '08:00' })]);
    expect(ask.now('2026-03-10', '12:59').notBefore).toBe('2026-03-10T13:00:00.000Z');
    expect(ask.now('2026-03-10', '13:00').mayDo?.at).toBe('12:00');
    const overnight = under(terms({ timing: { is: 'times', times: ['06:00', '22:00'] } }), [
      dose('2026-03-10', '23:00', { named: '22:00' }),
    ]);
    expect(overnight.now('2026-03-11', '06:59').notBefore).toBe('2026-03-11T07:00:00.000Z');
    const once_ = under(terms({ timing: { is: 'times', times: ['09:00'] } }), [
      dose('2026-03-10', '10:00', { named: '09:00' }),
    ]);
    expect(once_.now('2026-03-11', '09:30').notBefore).toBe('2026-03-11T10:00:00.000Z');
    const written = under(terms({ leastHours: 2.5 }), [dose('2026-03-10', '19:00', { named: '08:00' })]);
    expect(written.now('2026-03-10', '21:29').mayDo).toBeNull();
    expect(written.now('2026-03-10', '21:30').mayDo?.at).toBe('20:00');
  });

  it('a dose at this very minute counts, a later one does not yet', () => {
    const ask = under(terms(), [dose('2026-03-10', '08:30', { named: '08:00' })]);
    expect(ask.now('2026-03-10', '08:30').notBefore).toBe('2026-03-10T20:30:00.000Z');
    expect(ask.now('2026-03-10', '08:29').notBefore).toBeNull();
  });

  it('of several the last one given sets the distance, in whatever order they came in', () => {
    const two = [
      dose('2026-03-10', '15:00', { named: '08:00', id: 'x' }),
      dose('2026-03-10', '09:00', { named: '08:00', id: 'y' }),
    ];
    expect(under(terms(), two).now('2026-03-10', '20:00').notBefore).toBe('2026-03-11T03:00:00.000Z');
  });

  it('an order by days is free again at midnight', () => {
    const ask = under(terms({ timing: { is: 'days', every: 2 } }), [dose('2026-03-10', '22:00')]);
    expect(ask.now('2026-03-11', '23:59').notBefore).toBe('2026-03-12T00:00:00.000Z');
    expect(ask.now('2026-03-12', '00:00')).toMatchObject({ notBefore: null, mayDo: { on: '2026-03-12', at: '' } });
    const hours = under(terms({ timing: { is: 'days', every: 1 }, leastHours: 20 }), [dose('2026-03-10', '22:00')]);
    expect(hours.now('2026-03-11', '10:00').notBefore).toBe('2026-03-11T18:00:00.000Z');
  });
});

describe('what keeps a distance, Verifies: PROT-R29', () => {
  const wormed = (product: string) => ({ ...given(product, '2026-03-10'), at: '2026-03-10T09:00:00.000Z' });
  const order = terms({
    treat: { is: 'schedule', schedule: 'wormer' },
    starts: '2026-03-09',
    timing: { is: 'days', every: 3 },
  });

  it('for an order by schedule every product of its classes, and no other', () => {
    for (const product of ['wormer', 'wormer-and-other']) {
      expect(under(order, [wormed(product)]).now('2026-03-11', '09:00').notBefore).toBe('2026-03-13T00:00:00.000Z');
    }
    expect(under(order, [wormed('drops')]).now('2026-03-11', '09:00').notBefore).toBeNull();
    expect(under(order, [wormed('drops')]).on('2026-03-11').due).toBe('2026-03-09');
    expect(under(order, [wormed('wormer')]).on('2026-03-10')).toMatchObject({ status: 'not-yet', due: '2026-03-13' });
    // A schedule that either of two classes satisfies.
    const either = giving('wormer', [once('only')], { satisfiedBy: ['wormer', 'other'] });
    expect(under(order, [wormed('other')], {}, null, either).on('2026-03-10').due).toBe('2026-03-13');
  });

  it('for an order in words nothing that is given under another name', () => {
    const words = terms({ treat: { is: 'words', words: 'Wash.' }, timing: { is: 'days', every: 1 } });
    expect(under(words, [wormed('wormer')]).now('2026-03-10', '10:00').mayDo).toMatchObject({ on: '2026-03-10' });
  });

  it('what was given under the order’s name, whatever the product', () => {
    expect(
      under(terms(), [dose('2026-03-10', '09:00', { named: '08:00', product: 'wormer' })]).now('2026-03-10', '20:00')
        .mayDo,
    ).toBeNull();
  });

  it('a dose of today, for an order by days, and none of tomorrow', () => {
    const daily = terms({ timing: { is: 'days', every: 1 } });
    expect(under(daily, [dose('2026-03-10', '09:00')]).on('2026-03-10').due).toBe('2026-03-11');
    expect(under(daily, [dose('2026-03-11', '09:00')]).on('2026-03-10').due).toBe('2026-03-10');
  });
});

describe('the end, Verifies: PROT-R31', () => {
  const course = terms({ ends: { is: 'after-doses', doses: 2 } });
  const two = [dose('2026-03-10', '08:00'), dose('2026-03-10', '20:00')];

  it('after so many doses nothing may be done, before it may', () => {
    expect(under(course, two).now('2026-03-11', '08:00').mayDo).toBeNull();
    expect(under(course, two.slice(0, 1)).now('2026-03-11', '08:00').mayDo).toMatchObject({
      on: '2026-03-11',
      at: '08:00',
    });
    expect(under(course, two).on('2026-03-10')).toMatchObject({ status: 'complete', dose: 3 });
  });

  it('a stop is something seen present, of a code that it names, on the first day or later', () => {
    const stop = terms({ stopWhen: ['vomiting'] });
    const status = (...observations: ReturnType<typeof seen>[]) =>
      under(stop, [], { observations }).on('2026-03-12').because.say;
    expect(status(seen('vomiting', '2026-03-10'))).toBe('due.order.stopped');
    expect(status(seen('vomiting', '2026-03-12'))).toBe('due.order.stopped');
    expect(status(seen('vomiting', '2026-03-09'))).toBe('due.order');
    expect(status(seen('vomiting', '2026-03-13'))).toBe('due.order');
    expect(status(seen('vomiting', '2026-03-11', { state: 'absent' }))).toBe('due.order');
    expect(status(seen('sneezing', '2026-03-11'))).toBe('due.order');
  });

  it('a hold is one for all or for this order, from its first to its last day, with its own words', () => {
    const hold = (schedules: readonly string[] | 'all', today: string, note = '') =>
      under(terms(), [], { holds: [{ ...placedHold('2026-03-11', '2026-03-12', schedules), note }] }).on(today).hold;
    expect([hold('all', '2026-03-10'), hold('all', '2026-03-13')]).toEqual([null, null]);
    for (const today of ['2026-03-11', '2026-03-12']) expect(hold([name], today)?.code).toBe('other');
    expect(hold(['core-vaccine'], '2026-03-11')).toBeNull();
    expect(hold('all', '2026-03-11')?.why.with).toEqual({ what: { say: 'desk.hold.code.other' } });
    expect(hold('all', '2026-03-11', 'Surgery')?.why.with).toEqual({ what: 'Surgery' });
    expect(under(terms(), [], { holds: [placedHold('2026-03-10', null)] }).now('2026-03-10', '09:00').mayDo).toBeNull();
  });
});

describe('the item', () => {
  it('says when it is over, how long it is in time, and what is left open from before', () => {
    const daily = terms({ timing: { is: 'days', every: 3 } });
    expect(under(daily).on('2026-03-10')).toMatchObject({ status: 'due', overdueAfter: '2026-03-10' });
    expect(under(daily).on('2026-03-11')).toMatchObject({ status: 'overdue', due: '2026-03-10' });
    expect(under(daily).on('2026-03-12').status).toBe('overdue');
    expect(under(daily).on('2026-03-13')).toMatchObject({ status: 'due', due: '2026-03-13' });
    expect(
      under(daily)
        .on('2026-03-13')
        .times?.map((one) => [one.on, one.state]),
    ).toEqual([['2026-03-13', 'open']]);
    const late = under(daily, [dose('2026-03-12', '09:00')]);
    expect(late.on('2026-03-13')).toMatchObject({ status: 'not-yet', due: '2026-03-15', overdueAfter: '2026-03-15' });
  });

  it('a missed day is closed with its own words, a missed time with its own', () => {
    const why = (timing: object, today: string) =>
      under(terms({ timing }))
        .on(today)
        .times?.find((one) => one.state === 'missed')?.why;
    expect(why({ is: 'days', every: 1 }, '2026-03-11')).toEqual({ say: 'due.order.day-passed' });
    expect(why({ is: 'times', times: ['08:00', '20:00'] }, '2026-03-11')).toMatchObject({
      say: 'due.order.time-passed',
      with: { at: '08:00' },
    });
  });

  it('lists no times once it is over', () => {
    expect(under(terms(), [], {}, { on: day('2026-03-11'), why: 'Well.' }).on('2026-03-11').times).toBeUndefined();
  });

  it('comes out without a protocol, too', () => {
    expect(under(terms()).bare('2026-03-10')).toMatchObject({
      status: 'due',
      action: 'give',
      protocol: { id: '', version: '' },
    });
    expect(under(terms()).on('2026-03-10').protocol).toEqual({ id: 'small', version: '1' });
    const worm = terms({ treat: { is: 'schedule', schedule: 'wormer' } });
    expect(under(worm).bare('2026-03-10')).toMatchObject({ action: 'give', products: [] });
    expect(under(worm).on('2026-03-10').products).toEqual(['wormer', 'wormer-and-other']);
  });

  it('a test that is ordered is a test', () => {
    const tests = protocolOf({ ...giving('blood', [once('only')]), action: 'test' });
    const order: PlacedOrder = { record, terms: terms({ treat: { is: 'schedule', schedule: 'blood' } }), ended: null };
    const input = { animal: { ...cat({ born: '2025-01-01' }), orders: [order] }, formulary: catalogue };
    expect(forecast(input, tests, day('2026-03-10')).at(-1)).toMatchObject({ action: 'test', order: record });
  });
});

describe('one that is done ahead of its day', () => {
  it('leaves the next one to come, and does not end the order', () => {
    for (const timing of [
      { is: 'times', times: ['08:00'] },
      { is: 'days', every: 1 },
    ]) {
      const named = timing.is === 'times' ? '08:00' : '';
      const ahead = (on: string) => ({
        ...dose('2026-03-10', '20:00', { id: on }),
        dueAt: { on: day(on), at: named },
      });
      const ask = under(terms({ timing }), [dose('2026-03-10', '08:00', { named }), ahead('2026-03-11')]);
      expect(ask.on('2026-03-10')).toMatchObject({ status: 'not-yet', dose: 3, because: { say: 'due.order' } });
      expect(ask.on('2026-03-12').status).toBe('due');
      const three = under(terms({ timing }), [ahead('2026-03-13')]);
      expect(three.worth('2026-03-10')).toMatchObject([{ status: 'valid', reason: 'in-time' }]);
      expect(three.on('2026-03-10')).toMatchObject({
        due: timing.is === 'times' ? '2026-03-10' : '2026-03-11',
        dose: 2,
      });
      expect(three.on('2026-03-13').times?.at(-1)).toMatchObject({ on: '2026-03-13', state: 'done' });
      expect(three.now('2026-03-13', '09:00').times.at(-1)).toMatchObject({ on: '2026-03-13', state: 'done' });
    }
  });
});

describe('an order in words', () => {
  const wash = (at: string | undefined, id: string, named: string) => ({
    ...seen(name, '2026-03-10'),
    record: RecordId.parse(id),
    ...(at === undefined ? {} : { at: instantAt(day('2026-03-10'), at, 'UTC'), wall: at }),
    dueAt: { on: day('2026-03-10'), at: named },
  });
  const ask = (...observations: ReturnType<typeof wash>[]) =>
    under(terms({ treat: { is: 'words', words: 'Wash the eyes.' } }), [], { observations });

  it('is worth the time that was confirmed, not the one that was open', () => {
    expect(
      ask(wash('09:00', 'a', '20:00'))
        .on('2026-03-10')
        .times?.map((one) => one.state),
    ).toEqual(['open', 'done']);
  });

  it('of two for one time the earlier counts, whatever their names', () => {
    const worth = ask(wash('10:00', 'a', '08:00'), wash('09:00', 'b', '08:00')).worth('2026-03-10');
    expect(worth.map((one) => `${one.record} ${one.status}`)).toEqual(['b valid', 'a extra']);
  });
});

describe('what a record was worth', () => {
  it('is numbered, with its reason in words, and extra for a second of one time', () => {
    const history = [
      dose('2026-03-10', '08:00', { named: '08:00' }),
      dose('2026-03-10', '09:00', { named: '08:00' }),
      dose('2026-03-10', '20:00', { named: '20:00' }),
      dose('2026-03-11', '08:00', { named: '08:00', bad: true }),
    ];
    const worth = under(terms(), history).worth('2026-03-12');
    expect(worth.map((one) => [one.status, one.reason, one.dose, one.why.say])).toEqual([
      ['valid', 'in-time', 1, 'due.judged.valid-dose'],
      ['extra', 'same-time', null, 'due.judged.extra'],
      ['valid', 'in-time', 2, 'due.judged.valid-dose'],
      ['substandard', 'expired-lot', null, 'due.judged.substandard'],
    ]);
  });

  it('goes by the time it happened, then by name, whatever the order of the records', () => {
    const late = dose('2026-03-10', '09:00', { named: '08:00', id: 'a' });
    const early = dose('2026-03-10', '08:30', { named: '08:00', id: 'b' });
    const same = dose('2026-03-10', '08:30', { named: '08:00', id: 'c' });
    for (const history of [
      [late, early, same],
      [same, late, early],
      [early, same, late],
    ]) {
      expect(
        under(terms(), history)
          .worth('2026-03-10')
          .map((one) => `${one.record} ${one.status}`),
      ).toEqual(['b valid', 'c extra', 'a extra']);
    }
  });

  it('other treatments and omissions of other orders are none of its business', () => {
    const other = { ...given('drops', '2026-03-10'), at: '2026-03-10T08:05:00.000Z' };
    const skip: HistoryEvent = {
      what: 'not-given',
      record: RecordId.parse('skip'),
      at: '2026-03-10T08:05:00.000Z',
      on: day('2026-03-10'),
      schedule: orderSchedule(RecordId.parse('order-2')),
      reason: 'animal-ill',
      dueAt: { on: day('2026-03-10'), at: '08:00' },
    };
    const ask = under(terms(), [other, skip]);
    expect(ask.worth('2026-03-10')).toEqual([]);
    expect(ask.on('2026-03-10').times?.map((one) => one.state)).toEqual(['open', 'open']);
  });
});

describe('the wall clock', () => {
  it('gives day, minute and time of an instant in a zone', () => {
    expect(dayAndTimeOf('2026-03-08T07:59:59.000Z', 'America/Chicago').time).toBe('01:59');
    expect(dayAndTimeOf('2026-03-08T08:00:00.000Z', 'America/Chicago').time).toBe('03:00');
    const a = dayAndTimeOf('2026-03-10T23:59:00.000Z', 'UTC');
    const b = dayAndTimeOf('2026-03-11T00:00:00.000Z', 'UTC');
    expect([b.minute - a.minute, b.day - a.day]).toEqual([1, 1]);
  });
});
