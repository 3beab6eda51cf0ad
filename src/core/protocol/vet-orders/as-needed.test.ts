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
import { mostNeverReached, OrderTerms, orderSchedule, type PlacedOrder } from '../../animal/vet-order.js';
import { addDays, instantAt } from '../../calendar.js';
import { RecordId } from '../../ids.js';
import { forecast } from '../engine/forecast.js';
import { evaluateOrders } from './order-forecast.js';
import { orderNow } from './order-now.js';

/** Orders as needed of an invented veterinarian; times are those of Chicago. */
const zone = 'America/Chicago';
const record = RecordId.parse('order-1');
const name = orderSchedule(record);
const catalogue = catalogueOf('drops', 'wormer');
const protocol = protocolOf(giving('wormer', [once('only', { on: { is: 'observation', code: 'worms' } })]));

const terms = (more: object = {}): OrderTerms =>
  OrderTerms.parse({
    name: 'Drops',
    treat: { is: 'product', product: 'drops' },
    starts: '2026-03-06',
    timing: { is: 'as-needed', reason: 'pain' },
    leastHours: 4,
    ends: { is: 'when-ended' },
    vet: 'vera',
    ...more,
  });
const parses = (more: object): boolean => OrderTerms.safeParse({ ...terms(), ...more }).success;

function dose(on: string, time: string, schedule: string = name): HistoryEvent {
  const at = instantAt(day(on), time, zone);
  const event = given('drops', on, { schedule });
  return { ...event, record: RecordId.parse(`dose-${on}-${time}`), at, ...{ wall: time, dueAt: null } } as HistoryEvent;
}

function standing(order: OrderTerms, history: HistoryEvent[] = [], more: object = {}) {
  const placed: PlacedOrder = { record, terms: order, ended: null };
  const input = { animal: { ...cat({ history, ...more }), orders: [placed] }, formulary: catalogue };
  return {
    item: (on: string) => forecast(input, protocol, day(on)).find((one) => one.order === record),
    now: (on: string, time: string) => orderNow(input, placed, protocol, instantAt(day(on), time, zone), zone),
    worth: (on: string) => evaluateOrders(input, day(on)).map(({ status, reason }) => [status, reason]),
    at: (on: string, time: string) => instantAt(day(on), time, zone),
  };
}

describe('an order as needed (Verifies: PROT-R54)', () => {
  it('is never due and never late, whatever day it is, and says its reason', () => {
    const { item } = standing(terms());
    expect(item('2026-03-05')?.status).toBe('not-yet');
    for (let days = 0; days < 400; days += 7) {
      const one = item(addDays(day('2026-03-06'), days));
      expect([one?.status, one?.due, one?.overdueAfter]).toEqual(['when-needed', null, null]);
    }
    expect(item('2026-03-07')?.because).toMatchObject({
      say: 'due.order.when-needed',
      with: {
        timing: { say: 'due.order.as-needed', with: { reason: 'pain', turn: 1 } },
        limits: { list: [{ say: 'due.order.least-hours', with: { hours: '4' } }] },
      },
    });
  });

  it('may be done from its first day to its end, as often as its doses', () => {
    const days = standing(terms({ ends: { is: 'after-days', days: 2 } }));
    expect(days.now('2026-03-05', '23:59').mayDo).toBeNull();
    expect(days.now('2026-03-06', '00:00').mayDo).toMatchObject({ at: '', state: 'open' });
    expect(days.now('2026-03-07', '23:59').mayDo).not.toBeNull();
    expect(days.now('2026-03-08', '00:00').mayDo).toBeNull();
    expect(days.item('2026-03-08')?.status).toBe('complete');
    const doses = [dose('2026-03-06', '08:00'), dose('2026-03-06', '13:00')];
    const twice = standing(terms({ ends: { is: 'after-doses', doses: 2 } }), doses);
    expect(twice.item('2026-03-06')?.status).toBe('complete');
    expect(twice.now('2026-03-06', '20:00').mayDo).toBeNull();
  });

  it('waits for its least distance, in hours really passed, from the same product under any name', () => {
    const own = standing(terms(), [dose('2026-03-06', '08:00')]);
    expect(own.now('2026-03-06', '11:59')).toMatchObject({ mayDo: null, notBefore: own.at('2026-03-06', '12:00') });
    expect(own.now('2026-03-06', '12:00').mayDo).not.toBeNull();
    const other = standing(terms(), [dose('2026-03-06', '08:00', 'something-else')]);
    expect(other.now('2026-03-06', '11:59').mayDo).toBeNull();
  });

  it('counts what was given inside its days, and misses nothing', () => {
    const history = [dose('2026-03-05', '08:00'), dose('2026-03-06', '08:00'), dose('2026-03-09', '13:00')];
    const { item, worth } = standing(terms(), history);
    expect(item('2026-03-20')?.dose).toBe(3);
    expect(worth('2026-03-20')).toEqual([
      ['extra', 'not-ordered'],
      ['valid', 'in-time'],
      ['valid', 'in-time'],
    ]);
    expect(item('2026-03-09')?.times).toEqual([{ on: '2026-03-09', at: '13:00', state: 'done', why: null }]);
  });

  it('is held by what holds every order, and stopped by what it names', () => {
    const held = standing(terms(), [], { holds: [placedHold('2026-03-07', '2026-03-08')] });
    expect([held.item('2026-03-07')?.status, held.item('2026-03-09')?.status]).toEqual(['on-hold', 'when-needed']);
    expect(held.now('2026-03-07', '12:00').mayDo).toBeNull();
    const stopped = standing(terms({ stopWhen: ['vomiting'] }), [], { observations: [seen('vomiting', '2026-03-08')] });
    expect([stopped.item('2026-03-07')?.status, stopped.item('2026-03-08')?.status]).toEqual([
      'when-needed',
      'complete',
    ]);
  });

  it('says how long lies between two, has no other rhythm and divides no day', () => {
    expect(parses({})).toBe(true);
    expect(parses({ leastHours: null })).toBe(false);
    expect(parses({ timing: { is: 'as-needed', reason: ' ' } })).toBe(false);
    const mg = { amount: '2', unit: 'mg', per: 'time' };
    expect(parses({ dose: { ...mg, per: 'day' } })).toBe(false);
    expect(parses({ dose: mg, steps: [{ fromDay: 3, dose: mg }] })).toBe(true);
    expect(parses({ dose: mg, steps: [{ fromDay: 3, dose: mg, timing: { is: 'days', every: 1 } }] })).toBe(false);
  });
});

describe('the most in a day (Verifies: PROT-R55)', () => {
  const mg = { amount: '2', unit: 'mg', per: 'time' };
  const three = [dose('2026-03-06', '08:00'), dose('2026-03-06', '13:00'), dose('2026-03-06', '18:00')];

  it('closes an order until 24 hours after the oldest of so many, also over midnight', () => {
    const { now, at } = standing(terms({ mostADay: { amount: '3', unit: 'times' } }), three);
    expect(now('2026-03-06', '23:00')).toMatchObject({ mayDo: null, notBefore: at('2026-03-07', '08:00') });
    expect(now('2026-03-07', '07:59').mayDo).toBeNull();
    expect(now('2026-03-07', '08:00').mayDo).not.toBeNull();
  });

  it('in the unit of the dose is as many doses as it holds', () => {
    const six = terms({ dose: mg, mostADay: { amount: '7', unit: 'mg' } });
    expect(standing(six, three).now('2026-03-06', '23:00').mayDo).toBeNull();
    expect(standing(six, three.slice(1)).now('2026-03-06', '23:00').mayDo).not.toBeNull();
  });

  it('holds for an order by times too', () => {
    const times = { timing: { is: 'times', times: ['08:00', '20:00'] }, leastHours: null };
    const order = terms({ ...times, mostADay: { amount: '2', unit: 'times' } });
    const history = [dose('2026-03-06', '07:00', 'something-else'), dose('2026-03-06', '08:00')];
    const { now, at } = standing(order, history);
    expect(now('2026-03-06', '20:30')).toMatchObject({ mayDo: null, notBefore: at('2026-03-07', '07:00') });
  });

  it('that is less than a dose, or than the times of the order, or in another unit is no order', () => {
    const most = (amount: string, unit: string, more: object = {}) =>
      parses({ dose: mg, mostADay: { amount, unit }, ...more });
    expect(most('2', 'mg')).toBe(true);
    expect(most('1.9', 'mg')).toBe(false);
    expect(most('2', 'mL')).toBe(false);
    expect(most('1.5', 'times')).toBe(false);
    expect(most('3', 'mg', { dose: null })).toBe(false);
    const twice = { timing: { is: 'times', times: ['08:00', '20:00'] } };
    expect(most('4', 'mg', twice)).toBe(true);
    expect(most('3.9', 'mg', twice)).toBe(false);
    expect(most('1', 'times', twice)).toBe(false);
  });

  it('that the distance never lets it reach contradicts the order', () => {
    const reached = (leastHours: number, amount: string) =>
      mostNeverReached(terms({ leastHours, mostADay: { amount, unit: 'times' } }));
    expect(reached(6, '4')).toBeNull();
    expect(reached(6, '5')).toEqual({ times: 4, most: 5 });
    expect(reached(7, '4')).toBeNull();
    expect(mostNeverReached(terms())).toBeNull();
  });
});
