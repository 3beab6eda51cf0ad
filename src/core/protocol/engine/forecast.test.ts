import { describe, expect, it, test } from 'vitest';
import {
  afterPrevious,
  age,
  asking,
  cat,
  catalogueOf,
  chipped,
  day,
  dayAfter,
  given,
  giving,
  once,
  protocolOf,
  schedule,
  seen,
  starter,
  starterProducts,
  tested,
  weighed,
  weight,
} from '../../../../test/support/protocol.js';
import { RunId } from '../../ids.js';
import { forecast } from './forecast.js';

const everyTwoWeeks = {
  repeats: { until: null, ends: 'before' },
  intervals: [afterPrevious({ minimum: { weeks: 2 } })],
};
const repeated = protocolOf(giving('wormer', [once('repeated', everyTwoWeeks)]));
const wormers = catalogueOf('wormer', 'other');
const askRepeated = (...history: ReturnType<typeof given>[]) =>
  asking(cat({ born: '2025-06-01', history }), repeated, wormers, 'wormer');

describe('the next date, Verifies: PROT-R3', () => {
  // Published failure: next = old due date + interval, so a late job had to be ticked off several times.
  it('counts a late one from the day it was given, once', () => {
    const ask = askRepeated(given('wormer', '2026-02-15'), given('wormer', '2026-03-30'));
    const items = forecast(
      { animal: cat({ history: [given('wormer', '2026-03-30')] }), formulary: wormers },
      repeated,
      day('2026-03-30'),
    );
    expect(items).toHaveLength(1);
    expect(ask.on('2026-03-30')).toMatchObject({ status: 'not-yet', due: '2026-04-13' });
  });

  // Published failure: done early, an identical twin appeared.
  it('counts an early one from the day it was given and leaves no twin', () => {
    const grace = [afterPrevious({ absoluteMinimum: { days: 10 }, minimum: { weeks: 2 } })];
    const protocol = protocolOf(giving('wormer', [once('r', { ...everyTwoWeeks, intervals: grace })]));
    const history = [given('wormer', '2026-03-01'), given('wormer', '2026-03-13')];
    const ask = asking(cat({ born: '2025-06-01', history }), protocol, wormers, 'wormer');
    expect(ask.on('2026-03-15')).toMatchObject({ status: 'not-yet', due: '2026-03-27', dose: 3 });
  });

  // Published failure: weekly on Mondays, done on Friday, due again after three days.
  it('keeps the interval whatever the weekday of the round', () => {
    const ask = askRepeated(given('wormer', '2026-03-05'));
    expect(ask.on('2026-03-16')).toMatchObject({ status: 'not-yet', earliest: '2026-03-19' });
    const monday = askRepeated(given('wormer', '2026-03-05'), given('wormer', '2026-03-16'));
    expect(monday.past('2026-03-16').at(-1)).toMatchObject({
      status: 'not-valid',
      reason: 'too-soon',
      validFrom: '2026-03-19',
    });
  });

  // Published failure: a floor over hours said 13 days and the dose was "not yet due".
  test.each([
    ['2026-03-01', '2026-03-14', '2026-03-15'],
    ['2026-10-25', '2026-11-07', '2026-11-08'],
  ])('given %s: not yet on %s, due on %s', (first, before, on) => {
    const ask = askRepeated(given('wormer', first));
    expect(ask.on(before).status).toBe('not-yet');
    expect(ask.on(on).status).toBe('due');
  });

  it('does not care for the order in which records come', () => {
    const days = ['2026-03-01', '2026-03-15', '2026-03-29'].map((on) => given('wormer', on));
    const [a, b, c] = days;
    if (a === undefined || b === undefined || c === undefined) throw new Error('three doses');
    expect(askRepeated(c, a, b).on('2026-04-01')).toEqual(askRepeated(a, b, c).on('2026-04-01'));
  });
});

describe('two products kept apart, Verifies: PROT-R17', () => {
  const never = {
    apart: [{ class: 'other', begins: { days: 0 }, ends: { days: 1 }, source: 'test-source', standing: 'read' }],
  };
  const protocol = protocolOf(
    giving('wormer', [once('r', everyTwoWeeks)], never),
    giving('other', [once('r', everyTwoWeeks)]),
  );
  const history = [given('other', '2026-02-15'), given('wormer', '2026-02-22')];

  // Published failure: two alternating jobs done late on one day came back on one day for ever.
  it('the one given late moves the other to the next day', () => {
    const late = [...history, given('other', '2026-03-20')];
    const ask = asking(cat({ born: '2025-06-01', history: late }), protocol, wormers, 'wormer');
    expect(ask.on('2026-03-20')).toMatchObject({ status: 'not-yet', due: '2026-03-21' });
    expect(ask.on('2026-03-20').because.say).toBe('due.apart');
    expect(ask.on('2026-03-21').status).toBe('due');
  });
});

describe('a thing that begins on a day', () => {
  // Published failure: a second daily dose starting 8 February appeared on 7 February.
  it('is not there the day before, Verifies: PROT-R14', () => {
    const eyes = protocolOf(giving('drops', [once('course', { on: { is: 'observation', code: 'drops-ordered' } })]));
    const animal = cat({ born: '2025-06-01', observations: [seen('drops-ordered', '2026-02-08')] });
    const ask = asking(animal, eyes, catalogueOf('drops'), 'drops');
    expect(ask.on('2026-02-07')).toMatchObject({ status: 'not-recommended', due: null });
    expect(ask.on('2026-02-08')).toMatchObject({ status: 'due', due: '2026-02-08' });
  });

  it('an animal is not due before it is here', () => {
    const ask = asking(cat({ born: '2025-01-01', arrived: '2026-03-10' }), starter, starterProducts, 'core-vaccine');
    expect(ask.on('2026-03-09').status).toBe('not-yet');
    expect(ask.on('2026-03-10').status).toBe('due');
    expect(ask.on('2026-03-11').status).toBe('overdue');
  });

  // Published failure: a year of age reached a day early or late around leap days.
  it('a minimum age of 12 months from a leap day is reached on 1 March, Verifies: PROT-R2', () => {
    const protocol = protocolOf(giving('wormer', [once('one', { age: { minimum: age({ months: 12 }) } })]));
    const ask = asking(cat({ born: '2024-02-29' }), protocol, wormers, 'wormer');
    expect(ask.on('2025-02-28').status).toBe('not-yet');
    expect(ask.on('2025-03-01').status).toBe('due');
  });
});

describe('an estimated birth date, Verifies: PROT-R11', () => {
  // Youngest born 29 January 2026, oldest 1 January.
  const unsure = { bornFrom: '2026-01-01', born: '2026-01-29' };

  it('counts the youngest age from the youngest it may be', () => {
    const ask = asking(cat(unsure), starter, starterProducts, 'core-vaccine');
    expect(ask.on('2026-02-20')).toMatchObject({ status: 'not-yet', due: '2026-02-26' });
    expect(ask.on('2026-02-20').because.say).toBe('due.then-ends');
  });

  it('ends the series by the youngest it may be: one dose too many, not one too few', () => {
    const history = [given('core-vaccine-live', '2026-05-07'), given('core-vaccine-live', '2026-05-21')];
    const ask = asking(cat({ ...unsure, history }), starter, starterProducts, 'core-vaccine');
    expect(ask.on('2026-05-21')).toMatchObject({ status: 'not-yet', due: '2026-06-04' });
  });

  it('takes a birth interval written the wrong way round', () => {
    const ask = asking(cat({ bornFrom: '2026-01-29', born: '2026-01-01' }), starter, starterProducts, 'core-vaccine');
    expect(ask.on('2026-02-20').due).toBe('2026-02-26');
  });

  it('a rule that asks for the oldest gets it', () => {
    const protocol = protocolOf(giving('wormer', [once('one', { age: { maximum: age({ weeks: 10 }, 'oldest') } })]));
    expect(asking(cat(unsure), protocol, wormers, 'wormer').on('2026-02-01').latest).toBe('2026-03-11');
  });
});

describe('a test, Verifies: PROT-R15', () => {
  const ask = (...history: ReturnType<typeof tested>[]) =>
    asking(cat({ history }), starter, starterProducts, 'felv-test');

  test.each(['invalid', 'not-valid', 'abandoned'] as const)('that came out %s is due again at once', (result) => {
    const item = ask(tested(result, '2026-02-10')).on('2026-02-10');
    expect(item).toMatchObject({ status: 'due', due: '2026-02-10', dose: 1 });
    expect(item.because.say).toBe('due.again');
  });

  it('negative is done', () => {
    expect(ask(tested('negative', '2026-02-10')).on('2026-02-10').because.say).toBe('due.complete.once');
  });

  it('invalid and then negative is done', () => {
    const item = ask(tested('invalid', '2026-02-10'), tested('negative', '2026-02-10', 'felv-test', '09:20')).on(
      '2026-02-10',
    );
    expect(item).toMatchObject({ status: 'complete', due: null });
  });

  it('reactive is never complete: the medical team confirms it', () => {
    const item = ask(tested('reactive', '2026-02-10')).on('2026-03-10');
    expect(item).toMatchObject({ status: 'to-confirm', due: '2026-02-10', overdueAfter: null });
    expect(item.because.say).toBe('due.reactive.confirm');
  });

  it('before the youngest age does not count', () => {
    const item = ask(tested('negative', '2026-02-04')).on('2026-02-04');
    expect(item).toMatchObject({ status: 'not-yet', due: '2026-02-05' });
  });

  const open = {
    run: RunId.parse('run-1'),
    schedule: schedule('felv-test'),
    round: null,
    kitType: null,
    lot: null,
    kitLot: null,
    conjugateLot: null,
    drawnAt: '2026-02-10T09:00:00.000Z',
    volume_ul: 100,
    startedAt: '2026-02-10T09:05:00.000Z',
    start: null,
    reading: null,
    readAt: null,
    seen: {},
    result: 'running' as const,
    readRecord: null,
    startRecord: null,
  };

  it('begun and not read holds that day and the next, Verifies: PROT-R20', () => {
    const running = asking(cat({ runs: [open] }), starter, starterProducts, 'felv-test');
    expect(running.on('2026-02-10')).toMatchObject({ status: 'on-hold', hold: { code: 'test-running' } });
    expect(running.on('2026-02-11').hold?.code).toBe('test-running');
    expect(running.on('2026-02-12').status).toBe('overdue');
  });
});

describe('a chip', () => {
  const heavy = { weighings: [weight('2026-02-01', 600)] };

  it('is due from 4 weeks and once', () => {
    const ask = asking(cat(heavy), starter, starterProducts, 'chip');
    expect(ask.on('2026-01-28').status).toBe('not-yet');
    expect(ask.on('2026-02-01').status).toBe('due');
    const done = cat({ ...heavy, history: [chipped('2026-02-01')] });
    expect(asking(done, starter, starterProducts, 'chip').on('2026-03-01').status).toBe('complete');
  });

  it('put in and not read is never followed by a second one, Verifies: PROT-R20', () => {
    const animal = cat({ ...heavy, history: [chipped('2026-02-01', false)] });
    const ask = asking(animal, starter, starterProducts, 'chip');
    expect(ask.on('2026-03-01')).toMatchObject({
      status: 'on-hold',
      hold: { code: 'chip-not-confirmed', until: null },
    });
    expect(ask.past('2026-03-01')).toMatchObject([{ status: 'pending', reason: 'not-confirmed' }]);
  });

  it('that the animal came with is enough', () => {
    const chip = { code: '985112001234567', confirmed: true, record: chipped('2026-02-01').record };
    expect(asking(cat({ chip }), starter, starterProducts, 'chip').on('2026-03-01').status).toBe('complete');
  });

  it('waits for the weight, and asks for one when none is known', () => {
    const light = cat({ weighings: [weight('2026-01-30', 900, true), weight('2026-01-29', 410)] });
    expect(asking(light, starter, starterProducts, 'chip').on('2026-02-01')).toMatchObject({
      status: 'on-hold',
      hold: { code: 'under-weight' },
    });
    const unweighed = asking(cat(), starter, starterProducts, 'chip').on('2026-02-01');
    expect(unweighed.status).toBe('due');
    expect(unweighed.asks?.map((ask) => ask.say)).toEqual(['due.ask.weight']);
  });
});

describe('weighing', () => {
  const ask = (on: string) => asking(cat({ history: [weighed(on)] }), starter, null, 'weighing');

  it.each([
    ['daily under 4 weeks', '2026-01-20', '2026-01-21'],
    ['daily up to the last weighing under 4 weeks', '2026-01-28', '2026-01-29'],
    ['every 3 days from 4 weeks', '2026-01-29', '2026-02-01'],
    ['weekly from 8 weeks', '2026-02-26', '2026-03-05'],
    ['every 4 weeks from 16 weeks', '2026-04-23', '2026-05-21'],
  ])('is due %s, without any products', (_, on, next) => {
    expect(ask(on).on(on)).toMatchObject({ status: 'not-yet', due: next, products: [] });
    expect(ask(on).on(next).status).toBe('due');
    expect(ask(on).on(dayAfter(next)).status).toBe('overdue');
  });

  it('twice on a day is not wrong, only more than was asked', () => {
    const animal = cat({
      history: [weighed('2026-01-20'), { ...weighed('2026-01-20', 905), record: weight('2026-01-20', 1).record }],
    });
    const past = asking(animal, starter, null, 'weighing').past('2026-01-20');
    expect(past.map((one) => one.reason)).toEqual(['in-time', 'same-day']);
  });
});

describe('what is offered', () => {
  it('products by the order of classes, then of the formulary', () => {
    const two = giving('wormer', [once('one')], { satisfiedBy: ['other', 'wormer'] });
    const item = asking(cat(), protocolOf(two), catalogueOf('wormer', 'other', 'wormer+other'), 'wormer').on(
      '2026-03-01',
    );
    expect(item.products).toEqual(['other', 'wormer-and-other', 'wormer']);
  });

  it('nothing without a formulary', () => {
    expect(asking(cat(), starter, null, 'core-vaccine').on('2026-03-01')).toMatchObject({
      products: [],
      status: 'overdue',
    });
  });

  it('nothing for an animal that has left', () => {
    const left = { on: day('2026-03-01'), how: 'adopted' as const };
    expect(forecast({ animal: cat({ left }), formulary: null }, starter, day('2026-03-01'))).toEqual([]);
    expect(forecast({ animal: cat({ left }), formulary: null }, starter, day('2026-02-28'))).toHaveLength(20);
  });
});
