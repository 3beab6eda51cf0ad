import { describe, expect, it } from 'vitest';
import { cat, catalogueOf, day, given, giving, once, protocolOf } from '../../../../test/support/protocol.js';
import type { HistoryEvent } from '../../animal/animal.js';
import { amountElsewhere, amountInWords, amountOrdered } from '../../animal/order-amount.js';
import { OrderTerms, orderSchedule, type PlacedOrder } from '../../animal/vet-order.js';
import { dayFromNumber, dayNumber, instantAt } from '../../calendar.js';
import { RecordId } from '../../ids.js';
import type { ProtocolInput } from '../input.js';
import { evaluateOrders, forecastOrders } from './order-forecast.js';
import { orderNow } from './order-now.js';
import { dosesSaid } from './order-said.js';

/** Doses that change on later days of an order. The shelter's clock is UTC here. */
const record = RecordId.parse('order-1');
const name = orderSchedule(record);
const small = protocolOf(giving('wormer', [once('only')]));
const mg = (amount: string) => ({ amount, unit: 'mg' as const, per: 'time' as const });

const taper = (more: object = {}): OrderTerms =>
  OrderTerms.parse({
    name: 'Steroid',
    treat: { is: 'product', product: 'drops' },
    starts: '2026-03-01',
    dose: mg('10'),
    steps: [
      { fromDay: 8, dose: mg('5') },
      { fromDay: 15, dose: mg('5'), timing: { is: 'days', every: 2 } },
    ],
    timing: { is: 'times', times: ['08:00', '20:00'] },
    ends: { is: 'after-days', days: 21 },
    vet: 'vera',
    ...more,
  });

const dose = (on: string, time: string, at: string): HistoryEvent =>
  ({
    ...given('drops', on, { schedule: name }),
    record: RecordId.parse(`dose-${on}-${time}`),
    at: instantAt(day(on), time, 'UTC'),
    wall: time,
    dueAt: { on: day(on), at },
  }) as HistoryEvent;

function under(terms: OrderTerms, history: readonly HistoryEvent[] = []) {
  const order: PlacedOrder = { record, terms, ended: null };
  const input: ProtocolInput = {
    animal: { ...cat({ born: '2025-01-01', history }), orders: [order] },
    formulary: catalogueOf('drops'),
  };
  const found = <T>(one: T | undefined): T => {
    if (one === undefined) throw new Error('no order');
    return one;
  };
  return {
    on: (today: string) => found(forecastOrders(input, small, day(today))[0]),
    now: (on: string, time: string) => orderNow(input, order, small, instantAt(day(on), time, 'UTC'), 'UTC'),
    worth: (today: string) => evaluateOrders(input, day(today)),
  };
}
const timesOn = (terms: OrderTerms, on: string) => (under(terms).on(on).times ?? []).map(({ on, at }) => [on, at]);

describe('a dose that changes on a later day, Verifies: PROT-R53', () => {
  it('keeps the rhythm before its day and has its own from then on', () => {
    expect(timesOn(taper(), '2026-03-14')).toEqual([
      ['2026-03-13', '08:00'],
      ['2026-03-13', '20:00'],
      ['2026-03-14', '08:00'],
      ['2026-03-14', '20:00'],
    ]);
    expect(timesOn(taper(), '2026-03-15').slice(-1)).toEqual([['2026-03-15', '']]);
    expect(under(taper()).now('2026-03-15', '07:00').mayDo).toMatchObject({ on: '2026-03-15', at: '' });
    // The last evening before a step is open until the step's first day begins.
    expect(under(taper()).now('2026-03-14', '23:59').mayDo).toMatchObject({ on: '2026-03-14', at: '20:00' });
  });

  it('by days counts from its own first day, over the end of a month', () => {
    const alternate = taper({
      starts: '2026-02-27',
      steps: [],
      timing: { is: 'days', every: 2 },
      ends: { is: 'when-ended' },
    });
    const days: string[] = [];
    const history: HistoryEvent[] = [];
    for (let on = dayNumber(day('2026-02-27')); days.length < 4; on += 1) {
      const today = dayFromNumber(on);
      if (under(alternate, history).on(today).status !== 'due') continue;
      days.push(today);
      history.push(dose(today, '09:00', ''));
    }
    expect(days).toEqual(['2026-02-27', '2026-03-01', '2026-03-03', '2026-03-05']);
  });

  it('says the dose of the day, and all of them where the order is told', () => {
    const amountOn = (on: string) => {
      const amount = amountOrdered(taper(), day(on));
      return amount.is === 'figure' ? amount.dose.amount : amount.is;
    };
    expect(['2026-02-20', '2026-03-07', '2026-03-08', '2026-03-30'].map(amountOn)).toEqual(['10', '10', '5', '5']);
    expect(dosesSaid(taper()).map(({ say }) => say)).toEqual([
      'order.dose.each',
      'order.dose.from-day',
      'order.dose.from-day',
    ]);
    expect(under(taper()).on('2026-03-09').asks?.[0]?.with?.['amount']).toMatchObject({
      with: { amount: '5\u00a0mg' },
    });
  });

  it('divides the dose of a day by the times of its own rhythm', () => {
    const day20 = { amount: '20', unit: 'mg' as const, per: 'day' as const };
    const order = taper({
      dose: day20,
      steps: [{ fromDay: 3, dose: day20, timing: { is: 'hours', every: 8 } }],
      startsAt: '06:00',
    });
    const times = (on: string) => {
      const amount = amountOrdered(order, day(on));
      return amount.is === 'figure' ? amount.timesADay.toNumber() : null;
    };
    expect([times('2026-03-02'), times('2026-03-03')]).toEqual([2, 3]);
  });

  it('is not written with days that do not go upwards, or after the end, or without a first dose', () => {
    const wrong = (more: object): boolean => {
      const { success } = OrderTerms.safeParse({ ...taper(), ...more });
      return !success;
    };
    const step = (fromDay: number) => ({ fromDay, dose: mg('5') });
    expect(wrong({ steps: [step(8), step(8)] })).toBe(true);
    expect(wrong({ steps: [step(22)] })).toBe(true);
    expect(wrong({ steps: [step(21)] })).toBe(false);
    expect(wrong({ dose: null })).toBe(true);
    // A day's amount is divided among whole times of each day: every 48 hours it would be doubled.
    const daily = (more: object): boolean =>
      wrong({ dose: { ...mg('5'), per: 'day' }, steps: [], startsAt: '08:00', ...more });
    expect(daily({ timing: { is: 'hours', every: 48 } })).toBe(true);
    expect(daily({ timing: { is: 'hours', every: 7 } })).toBe(true);
    expect(daily({ timing: { is: 'days', every: 2 } })).toBe(true);
    expect(daily({ timing: { is: 'hours', every: 8 } })).toBe(false);
    expect(daily({ timing: { is: 'days', every: 1 } })).toBe(false);
    expect(wrong({ steps: [{ ...step(8), timing: { is: 'hours', every: 8 } }] })).toBe(true);
    expect(wrong({ treat: { is: 'words', words: 'Wash.' }, steps: [] })).toBe(true);
  });
});

describe('what is late', () => {
  it('is given as the order has it today, and says so', () => {
    expect(under(taper()).on('2026-03-08')).toMatchObject({
      status: 'overdue',
      because: { with: { figure: { with: { amount: '5\u00a0mg' } }, date: { date: '2026-03-07' } } },
    });
  });
});

describe('an order by hours that lasts days', () => {
  it('lasts so many times 24 hours from its first time', () => {
    const order = taper({
      starts: '2026-05-01',
      startsAt: '18:00',
      steps: [],
      timing: { is: 'hours', every: 12 },
      ends: { is: 'after-days', days: 7 },
    });
    expect(under(order).now('2026-05-08', '06:00').mayDo).toMatchObject({ on: '2026-05-08', at: '06:00' });
    expect(under(order).now('2026-05-08', '18:00').mayDo).toBeNull();
    expect(under(order).on('2026-05-08').latest).toBe('2026-05-08');
    expect(under(order).on('2026-05-09')).toMatchObject({ status: 'ended-missed' });
  });
});

describe('an amount in words beside a figure', () => {
  const of = (more: object) => ({ ...taper({ dose: { ...mg('10'), unit: 'mg-per-kg' }, steps: [] }), ...more });

  it('may say the same figure, and is asked about when it says another', () => {
    expect(amountElsewhere(of({ name: 'Steroid 10 mg/kg' }))).toEqual([]);
    expect(amountElsewhere(of({ name: 'Steroid 10 mg per kg', why: 'was 10 mg/kg before' }))).toEqual([]);
    expect(amountElsewhere(of({ name: 'Steroid 5 mg/kg' }))).toEqual(['name']);
    expect(amountElsewhere(of({ name: 'Steroid 110 mg/kg' }))).toEqual(['name']);
    expect(amountElsewhere(of({ name: 'Steroid 10 mg' }))).toEqual(['name']);
    expect(amountElsewhere(of({ amount: 'give 2 mL' }))).toEqual(['amount']);
    for (const amount of ['give twice the amount', 'half a syringe', '5 ccm']) {
      expect(amountElsewhere(of({ amount }))).toEqual(['amount']);
    }
    expect(amountElsewhere(of({ amount: 'slowly' }))).toEqual([]);
  });

  it('that contradicts it leaves the order to be read by people', () => {
    expect(amountInWords(of({ name: 'Steroid 5 mg/kg' }))).toBe('Steroid 5 mg/kg');
    expect(amountInWords(of({}))).toBeNull();
    expect(amountOrdered(of({ amount: 'give 2 mL' }), day('2026-03-02'))).toEqual({ is: 'words', words: 'give 2 mL' });
  });

  it('knows the later doses of a taper, too', () => {
    expect(amountElsewhere(taper({ name: 'From 10 mg down to 5 mg' }))).toEqual([]);
    expect(amountElsewhere(taper({ name: 'From 10 mg down to 2.5 mg' }))).toEqual(['name']);
  });
});
