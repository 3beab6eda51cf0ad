import { describe, expect, it, test } from 'vitest';
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
import type { HistoryEvent, NotGiven } from '../../animal/animal.js';
import { OrderTerms, orderSchedule, type PlacedOrder } from '../../animal/vet-order.js';
import { dayOfInstant, instantAt } from '../../calendar.js';
import { RecordId } from '../../ids.js';
import { dayAndTimeOf } from '../../wall-time.js';
import { evaluate } from '../engine/evaluate.js';
import { forecast } from '../engine/forecast.js';
import type { ProtocolInput } from '../input.js';
import { orderNow } from './order-now.js';

/** Orders of an invented veterinarian; times are those of Chicago. */
const zone = 'America/Chicago';
const record = RecordId.parse('order-1');
const name = orderSchedule(record);
const catalogue = catalogueOf('drops', 'wormer');
const protocol = protocolOf(giving('wormer', [once('only', { on: { is: 'observation', code: 'worms' } })]));

const terms = (more: object = {}): OrderTerms =>
  OrderTerms.parse({
    name: 'Eye drops',
    treat: { is: 'product', product: 'drops' },
    starts: '2026-03-06',
    timing: { is: 'times', times: ['08:00', '20:00'] },
    ends: { is: 'when-ended' },
    vet: 'vera',
    ...more,
  });

/** What is done at a wall-clock time, confirmed as one item of the order or as none. */
function dose(
  on: string,
  time: string,
  named: string | null = null,
  more: Parameters<typeof given>[2] = {},
): HistoryEvent {
  const at = instantAt(day(on), time, zone);
  const event = given('drops', on, { schedule: name, ...more });
  const dueAt = named === null ? null : { on: day(on), at: named };
  return {
    ...event,
    record: RecordId.parse(`dose-${on}-${time}`),
    at,
    ...{ wall: dayAndTimeOf(at, zone).time, dueAt },
  };
}

function skipped(on: string, named: string, reason: NotGiven = 'refused-or-escaped'): HistoryEvent {
  const at = instantAt(day(on), named === '' ? '09:00' : named, zone);
  const dueAt = { on: day(on), at: named };
  return {
    what: 'not-given',
    record: RecordId.parse(`skip-${on}-${named}`),
    at,
    on: day(on),
    schedule: name,
    reason,
    dueAt,
  };
}

function under(order: OrderTerms, history: HistoryEvent[] = [], more: object = {}, ended: PlacedOrder['ended'] = null) {
  const orders: PlacedOrder[] = [{ record, terms: order, ended }];
  const animal = { ...cat({ born: '2025-01-01', history, ...more }), orders };
  const input: ProtocolInput = { animal, formulary: catalogue };
  return {
    on: (today: string) => {
      const item = forecast(input, protocol, day(today)).find((one) => one.schedule === name);
      if (item === undefined) throw new Error('no item for the order');
      return item;
    },
    now: (on: string, time: string) =>
      orderNow(input, orders[0] as PlacedOrder, protocol, instantAt(day(on), time, zone), zone),
    worth: (today: string) => evaluate(input, protocol, day(today)).filter((one) => one.schedule === name),
  };
}

const stateOf = (times: readonly { on: string; at: string; state: string }[] | undefined): string[] =>
  (times ?? []).map((one) => `${one.on} ${one.at} ${one.state}`);

describe('times of the day, Verifies: PROT-R28', () => {
  // Published failure: repeats slid by an hour after the clock change.
  it('keep their hour over a clock change, wherever the device is', () => {
    const ask = under(terms());
    for (const on of ['2026-03-07', '2026-03-08', '2026-03-09']) {
      expect(
        ask
          .on(on)
          .times?.filter((one) => one.on === on)
          .map((one) => one.at),
      ).toEqual(['08:00', '20:00']);
      expect(ask.now(on, '07:59').mayDo?.at).toBe('20:00');
      expect(ask.now(on, '08:00').mayDo).toMatchObject({ on, at: '08:00' });
    }
    expect(instantAt(day('2026-03-09'), '08:00', zone)).toBe('2026-03-09T13:00:00.000Z');
    expect(ask.now('2026-11-01', '08:00').mayDo).toMatchObject({ on: '2026-11-01', at: '08:00' });
  });

  it('of every so many hours are counted on the wall clock', () => {
    const ask = under(terms({ timing: { is: 'hours', every: 8 }, startsAt: '06:00' }));
    expect(stateOf(ask.on('2026-03-08').times).filter((one) => one.startsWith('2026-03-08'))).toEqual([
      '2026-03-08 06:00 open',
      '2026-03-08 14:00 open',
      '2026-03-08 22:00 open',
    ]);
  });

  it('that do not divide a day go on over midnight', () => {
    const ask = under(terms({ timing: { is: 'hours', every: 36 }, startsAt: '20:00' }));
    expect(ask.on('2026-03-07')).toMatchObject({ status: 'overdue', due: '2026-03-06' });
    expect(stateOf(ask.on('2026-03-08').times)).toContain('2026-03-08 08:00 open');
  });
});

describe('the first day, Verifies: PROT-R28', () => {
  // Published failure: a second daily dose starting 8 February appeared on 7 February.
  it('is inclusive, and nothing is there before it', () => {
    const ask = under(
      terms({ starts: '2026-02-08', startsAt: '12:00', timing: { is: 'times', times: ['08:00', '12:00'] } }),
    );
    expect(ask.on('2026-02-07')).toMatchObject({ status: 'not-yet', due: '2026-02-08' });
    expect(ask.on('2026-02-07').times ?? []).toEqual([]);
    expect(stateOf(ask.on('2026-02-08').times)).toEqual(['2026-02-08 12:00 open']);
    expect(stateOf(ask.on('2026-02-09').times).slice(-2)).toEqual(['2026-02-09 08:00 open', '2026-02-09 12:00 open']);
    expect(ask.now('2026-02-07', '23:59').mayDo).toBeNull();
  });
});

describe('a named item, Verifies: PROT-R29', () => {
  const order = terms({ starts: '2026-03-10', timing: { is: 'times', times: ['08:30', '12:30'] } });

  // Published failure: the first, taken at 11:19, was matched to 12:30, and the real second one vanished.
  it('is the one a person confirmed; the later one stays due, and its distance is kept', () => {
    const late = under(order, [dose('2026-03-10', '11:19', '08:30')]);
    expect(stateOf(late.on('2026-03-10').times)).toEqual(['2026-03-10 08:30 done', '2026-03-10 12:30 open']);
    expect(late.on('2026-03-10')).toMatchObject({ status: 'due', dose: 2 });
    expect(late.now('2026-03-10', '12:30')).toMatchObject({
      mayDo: null,
      notBefore: instantAt(day('2026-03-10'), '15:19', zone),
    });
    expect(late.now('2026-03-10', '15:18').mayDo).toBeNull();
    expect(late.now('2026-03-10', '15:19').mayDo?.at).toBe('12:30');
  });

  it('without a name is the one that was open, never the nearest', () => {
    const unnamed = under(order, [dose('2026-03-10', '12:29')]);
    expect(stateOf(unnamed.on('2026-03-10').times)).toEqual(['2026-03-10 08:30 done', '2026-03-10 12:30 open']);
    const before = under(order, [dose('2026-03-10', '08:29')]);
    expect(stateOf(before.on('2026-03-10').times)).toEqual(['2026-03-10 08:30 open', '2026-03-10 12:30 open']);
    expect(before.worth('2026-03-10')[0]).toMatchObject({ status: 'extra', reason: 'not-ordered' });
  });

  it('done twice is done once, and the second still keeps its distance', () => {
    const twice = under(order, [dose('2026-03-10', '08:35', '08:30'), dose('2026-03-10', '09:00', '08:30')]);
    expect(twice.worth('2026-03-10').map((one) => `${one.status} ${one.reason}`)).toEqual([
      'valid in-time',
      'extra same-time',
    ]);
    expect(twice.now('2026-03-10', '12:59').mayDo).toBeNull();
    expect(twice.now('2026-03-10', '13:00').mayDo?.at).toBe('12:30');
  });

  // Published failure: recorded five minutes early, the alarm still came.
  it('recorded before its time is done, and nothing asks for it any more', () => {
    const early = under(order, [dose('2026-03-10', '08:25', '08:30')]);
    expect(early.now('2026-03-10', '08:30').mayDo).toBeNull();
    expect(stateOf(early.on('2026-03-10').times)[0]).toBe('2026-03-10 08:30 done');
  });

  it('not taken or from a bad lot is open again; only what went in keeps a distance', () => {
    const spat = under(order, [dose('2026-03-10', '08:30', '08:30', { substandard: 'not-taken' })]);
    expect(spat.now('2026-03-10', '08:31').mayDo?.at).toBe('08:30');
    expect(spat.worth('2026-03-10')[0]).toMatchObject({ status: 'substandard', reason: 'not-taken' });
    const expired = under(order, [dose('2026-03-10', '08:30', '08:30', { substandard: 'expired-lot' })]);
    expect(expired.now('2026-03-10', '08:31').mayDo).toBeNull();
    expect(expired.now('2026-03-10', '12:30').mayDo?.at).toBe('12:30');
  });
});

describe('missed times, Verifies: PROT-R30', () => {
  const order = terms({ starts: '2026-03-10', startsAt: '11:00', timing: { is: 'hours', every: 4 }, leastHours: 3.5 });

  // Published failure: 11:00, 15:00 and 19:00 were all offered at 19:34; three at once would be an overdose.
  it('do not pile up: one may be done, the others are closed with a reason', () => {
    const { mayDo, times } = under(order).now('2026-03-10', '19:34');
    expect(mayDo).toMatchObject({ at: '19:00' });
    expect(stateOf(times)).toEqual([
      '2026-03-10 11:00 missed',
      '2026-03-10 15:00 missed',
      '2026-03-10 19:00 open',
      '2026-03-10 23:00 open',
    ]);
    expect(times.map((one) => one.why?.say ?? null)).toEqual([
      'due.order.time-passed',
      'due.order.time-passed',
      null,
      null,
    ]);
  });

  it('are at most one at any minute of any day', () => {
    const ask = under(order, [dose('2026-03-10', '15:20')]);
    for (let minute = 0; minute < 1440; minute += 7) {
      const time = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
      const { mayDo, notBefore } = ask.now('2026-03-10', time);
      if (mayDo !== null) expect(mayDo.at <= time || mayDo.on < '2026-03-10').toBe(true);
      if (minute >= 920 && minute < 920 + 210) expect(mayDo).toBeNull();
      expect(mayDo === null || notBefore === null).toBe(true);
    }
  });

  it('keep the reason somebody gave, and the next day closes what is left of the day before', () => {
    const refused = under(terms(), [skipped('2026-03-07', '08:00')]);
    expect(refused.on('2026-03-07').times?.find((one) => one.at === '08:00' && one.on === '2026-03-07')).toMatchObject({
      state: 'missed',
      why: { say: 'due.order.not-done', with: { reason: { say: 'not-given.refused-or-escaped' } } },
    });
    const next = under(terms()).on('2026-03-08');
    expect(stateOf(next.times)).toEqual([
      '2026-03-07 08:00 missed',
      '2026-03-07 20:00 open',
      '2026-03-08 08:00 open',
      '2026-03-08 20:00 open',
    ]);
    expect(next.status).toBe('overdue');
  });

  it('a course counted in doses is made up at its end, one in days is not', () => {
    const course = (ends: object, history: HistoryEvent[]) =>
      under(terms({ name: 'Course', starts: '2026-03-10', timing: { is: 'days', every: 1 }, ends }), history);
    const two = [dose('2026-03-10', '09:00'), dose('2026-03-12', '09:00')];
    expect(course({ is: 'after-days', days: 3 }, two).on('2026-03-12')).toMatchObject({
      status: 'ended-missed',
      because: { say: 'due.order.ended-missed', with: { count: 2, missed: 1 } },
    });
    expect(course({ is: 'after-doses', doses: 3 }, two).on('2026-03-12')).toMatchObject({
      status: 'not-yet',
      due: '2026-03-13',
    });
    expect(course({ is: 'after-doses', doses: 3 }, two).on('2026-03-13')).toMatchObject({ status: 'due', dose: 3 });
    const three = [...two, dose('2026-03-13', '09:00')];
    expect(course({ is: 'after-doses', doses: 3 }, three).on('2026-03-14')).toMatchObject({
      status: 'complete',
      dose: 4,
      because: { say: 'due.order.complete', with: { count: 3, missed: 1 } },
    });
  });

  test.each([
    ['2026-03-12', 'due'],
    ['2026-03-13', 'ended-missed'],
  ])('three days from 10 March: on %s it is %s', (on, status) => {
    expect(
      under(terms({ starts: '2026-03-10', timing: { is: 'days', every: 1 }, ends: { is: 'after-days', days: 3 } })).on(
        on,
      ).status,
    ).toBe(status);
  });
});

describe('days between, Verifies: PROT-R28', () => {
  const every = (days: number) => terms({ starts: '2026-03-01', timing: { is: 'days', every: days } });

  it('count from the day really given, and the day it falls on', () => {
    const ask = under(every(2), [dose('2026-03-01', '09:00'), dose('2026-03-04', '09:00')]);
    expect(ask.on('2026-03-05')).toMatchObject({ status: 'not-yet', due: '2026-03-06' });
    // In time on the day itself, although the second day since the first dose was the 5th.
    expect(ask.on('2026-03-06')).toMatchObject({ status: 'due', due: '2026-03-06', overdueAfter: '2026-03-06' });
  });

  it('are calendar days, and half of them in hours lie between: a dose in the evening is not followed after midnight', () => {
    const ask = under(every(1), [dose('2026-03-07', '23:50')]);
    expect(ask.now('2026-03-08', '00:10')).toMatchObject({ mayDo: null, notBefore: '2026-03-08T17:50:00.000Z' });
    // The clocks go forward in that night: twelve hours really passed.
    expect(ask.now('2026-03-08', '12:49').mayDo).toBeNull();
    expect(ask.now('2026-03-08', '12:50').mayDo).toMatchObject({ on: '2026-03-08' });
    expect(ask.now('2026-03-07', '23:59').mayDo).toBeNull();
    const morning = under(every(1), [dose('2026-03-07', '08:00')]);
    expect(morning.now('2026-03-08', '00:10').mayDo).toMatchObject({ on: '2026-03-08' });
  });

  it('the same product given outside the order keeps its distance', () => {
    const outside = { ...given('drops', '2026-03-05'), at: instantAt(day('2026-03-05'), '09:00', zone) };
    const ask = under(every(3), [outside]);
    expect(ask.on('2026-03-06')).toMatchObject({ status: 'not-yet', due: '2026-03-08' });
  });
});

describe('the end of an order, Verifies: PROT-R31', () => {
  it('ended by a person: nothing from that day on', () => {
    const ask = under(terms(), [], {}, { on: day('2026-03-08'), why: 'Eye is clear.' });
    expect(ask.on('2026-03-07').status).toBe('overdue');
    expect(ask.on('2026-03-08')).toMatchObject({ status: 'complete', due: null, because: { say: 'due.order.ended' } });
    expect(ask.now('2026-03-08', '09:00').mayDo).toBeNull();
  });

  it('stopped by its own terms when something is seen on its first day or later', () => {
    const stop = terms({ stopWhen: ['vomiting'] });
    const stopped = under(stop, [], { observations: [seen('vomiting', '2026-03-07')] });
    expect(stopped.on('2026-03-06').status).toBe('due');
    expect(stopped.on('2026-03-07')).toMatchObject({ status: 'complete', because: { say: 'due.order.stopped' } });
    expect(stopped.now('2026-03-07', '09:00').mayDo).toBeNull();
    const before = under(stop, [], { observations: [seen('vomiting', '2026-03-05')] });
    expect(before.on('2026-03-07').status).toBe('overdue');
  });

  it('held while something is seen, or by a hold that a person set', () => {
    const ask = under(terms({ holdWhen: ['fever'] }), [], {
      observations: [seen('fever', '2026-03-07', { until: '2026-03-08' })],
    });
    expect(ask.on('2026-03-08')).toMatchObject({ status: 'on-hold', hold: { code: 'fever', until: '2026-03-08' } });
    expect(ask.on('2026-03-09').hold).toBeNull();
    const placed = under(terms(), [], { holds: [placedHold('2026-03-08', '2026-03-08', [name])] });
    expect(placed.on('2026-03-08').status).toBe('on-hold');
    expect(placed.on('2026-03-09').status).not.toBe('on-hold');
  });
});

describe('what is ordered', () => {
  it('names the product, those of a schedule, or words alone', () => {
    expect(under(terms()).on('2026-03-06')).toMatchObject({
      action: 'give',
      products: ['drops'],
      scheduleName: 'Eye drops',
    });
    const worm = terms({ treat: { is: 'schedule', schedule: 'wormer' } });
    expect(under(worm).on('2026-03-06')).toMatchObject({ action: 'give', products: ['wormer'] });
    const words = terms({ treat: { is: 'words', words: 'Wash the eyes.' }, amount: 'lukewarm' });
    expect(under(words).on('2026-03-06')).toMatchObject({ action: 'look', products: [], order: record });
    expect(under(words).on('2026-03-06').asks?.[0]?.say).toBe('due.order.amount');
  });

  it('in words is done by noting it', () => {
    const words = terms({ treat: { is: 'words', words: 'Wash the eyes.' }, timing: { is: 'days', every: 1 } });
    const noted = under(words, [], {
      observations: [{ ...seen(name, '2026-03-06'), at: '2026-03-06T15:00:00.000Z', wall: '09:00' }],
    });
    expect(noted.on('2026-03-06')).toMatchObject({ status: 'not-yet', due: '2026-03-07' });
  });

  test.each([
    [{ timing: { is: 'hours', every: 4 } }],
    [{ timing: { is: 'times', times: ['20:00', '08:00'] } }],
    [{ timing: { is: 'times', times: ['08:00', '08:00'] } }],
    [{ timing: { is: 'times', times: ['8:00'] } }],
    [{ ends: { is: 'after-days', days: 0 } }],
    [{ vet: '' }],
  ])('refuses %j', (more) => {
    expect(() => terms(more)).toThrow();
  });

  it('gives no name of its own that a document could have', () => {
    expect(orderSchedule(RecordId.parse('0190A-B_c'))).toBe('order-0190a-b-c');
    expect(dayOfInstant('2026-03-06T05:00:00.000Z', zone)).toBe('2026-03-05');
  });
});
