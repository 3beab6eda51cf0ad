import { describe, expect, it } from 'vitest';
import {
  afterPrevious,
  age,
  asking,
  cat,
  catalogueOf,
  chipped,
  given,
  giving,
  once,
  placedHold,
  protocolOf,
  seen,
  starter,
  starterProducts,
  starterWith,
  tested,
  weight,
} from '../../../../test/support/protocol.js';
import type { TestRun } from '../../animal/animal.js';
import { RecordId, RunId, ScheduleId } from '../../ids.js';

/** Days on which one comparison decides, and the same asked from the other side. Cats are born 1 January 2026. */
const source = { source: 'test-source', standing: 'read' } as const;
const worm = catalogueOf('wormer', 'other', 'wormer+other');
const small = (targets: readonly object[], more: object = {}, animal: Parameters<typeof cat>[0] = {}) =>
  asking(cat(animal), protocolOf(giving('wormer', targets, more)), worm, 'wormer');
const fortnightly = {
  repeats: { until: null, ends: 'before' },
  intervals: [afterPrevious({ minimum: { weeks: 2 } })],
};

describe('ages, on the day itself', () => {
  it('the maximum is too late, the day before is not, Verifies: PROT-R16', () => {
    const target = [once('only', { age: { maximum: age({ weeks: 8 }) } })];
    const judged = (on: string) => small(target, {}, { history: [given('wormer', on)] }).past('2026-06-01')[0];
    expect(judged('2026-02-25')).toMatchObject({ status: 'valid' });
    expect(judged('2026-02-26')).toMatchObject({ status: 'extra', reason: 'too-old' });
  });

  it('the age from which a series is meant counts as reached, Verifies: PROT-R5', () => {
    const from = {
      series: [{ id: 'grown', name: 'Grown', start: { from: age({ weeks: 8 }) }, targets: [once('only')] }],
    };
    const judged = (on: string) => small([], from, { history: [given('wormer', on)] }).past('2026-06-01')[0];
    expect(judged('2026-02-25')).toMatchObject({ status: 'not-valid', reason: 'too-young', validFrom: '2026-02-26' });
    expect(judged('2026-02-26')).toMatchObject({ status: 'valid' });
    // Nothing was given yet: before that age no series is for it.
    const status = (today: string) => small([], from).on(today).status;
    expect([status('2026-02-25'), status('2026-02-26')]).toEqual(['not-recommended', 'due']);
  });

  it('a dose is left out from an age on, or under one, Verifies: PROT-R6', () => {
    const skipped = (condition: object, today: string) =>
      small([once('only', { skip: [{ all: [{ is: 'age', ...condition }], words: 'not needed', ...source }] })]).on(
        today,
      ).status;
    expect(skipped({ from: age({ weeks: 8 }) }, '2026-02-25')).toBe('due');
    expect(skipped({ from: age({ weeks: 8 }) }, '2026-02-26')).toBe('complete');
    expect(skipped({ under: age({ weeks: 8 }) }, '2026-02-25')).toBe('complete');
    expect(skipped({ under: age({ weeks: 8 }) }, '2026-02-26')).toBe('due');
  });

  it('a condition on another schedule is false when it is not complete, true when it is, Verifies: PROT-R6', () => {
    const skip = [{ all: [{ is: 'complete', schedule: 'other' }], words: 'not needed', ...source }];
    const protocol = protocolOf(giving('other', [once('only')]), giving('wormer', [once('only', { skip })]));
    const status = (...history: ReturnType<typeof given>[]) =>
      asking(cat({ history }), protocol, worm, 'wormer').on('2026-02-01').status;
    expect(status()).toBe('due');
    expect(status(given('other', '2026-01-20'))).toBe('complete');
  });

  it('a condition on the test of another schedule asks for its last result, Verifies: PROT-R6', () => {
    const skip = [{ all: [{ is: 'result', schedule: 'blood', result: 'negative' }], words: 'not needed', ...source }];
    const blood = { ...giving('blood', [once('only', fortnightly)]), action: 'test' };
    const protocol = protocolOf(blood, giving('wormer', [once('only', { skip })]));
    const status = (...results: ('negative' | 'reactive' | 'invalid')[]) => {
      const history = results.map((result, at) => tested(result, `2026-01-${10 + at * 5}`, 'blood'));
      return asking(cat({ history }), protocol, worm, 'wormer').on('2026-02-01').status;
    };
    expect([status(), status('reactive'), status('invalid')]).toEqual(['due', 'due', 'due']);
    expect([status('negative'), status('negative', 'invalid')]).toEqual(['complete', 'complete']);
  });

  it('all conditions of a series have to hold, each of them, Verifies: PROT-R34', () => {
    const when = [
      { is: 'observed', code: 'one' },
      { is: 'doses', atLeast: 1 },
    ];
    const more = {
      series: [{ id: 'special', name: 'Special', start: { when }, targets: [once('only', fortnightly)] }],
    };
    const status = (about: Parameters<typeof cat>[0]) => small([], more, about).on('2026-02-01').status;
    const dose = given('wormer', '2026-01-20');
    expect(status({ observations: [seen('one', '2026-01-05')] })).toBe('not-recommended');
    expect(status({ history: [dose] })).toBe('not-recommended');
    expect(status({ observations: [seen('one', '2026-01-05')], history: [dose] })).toBe('not-yet');
  });
});

describe('a retest clock, Verifies: PROT-R27', () => {
  it('goes on when the first test of all came before its end', () => {
    const about = { history: [tested('negative', '2026-03-15')], observations: [seen('felv-exposed', '2026-03-10')] };
    const ask = asking(cat(about), starter, null, 'felv-test');
    expect(ask.past('2026-05-01')[0]).toMatchObject({ status: 'valid' });
    expect(ask.on('2026-04-08')).toMatchObject({ status: 'complete', due: '2026-04-09' });
    expect(ask.on('2026-04-09').status).toBe('due');
  });

  it('is over when the first test of all came on or after its end', () => {
    const about = { history: [tested('negative', '2026-04-09')], observations: [seen('felv-exposed', '2026-03-10')] };
    expect(asking(cat(about), starter, null, 'felv-test').on('2026-05-01')).toMatchObject({
      status: 'complete',
      due: null,
    });
  });

  it('without an interval of its own ends the day after', () => {
    const clock = (on: string) =>
      small(
        [once('first'), once('again', { on: { is: 'clock', code: 'seen' }, upkeep: true, ...fortnightly })],
        {},
        {
          history: [given('wormer', on)],
          observations: [seen('seen', '2026-02-01')],
        },
      ).on('2026-03-10').status;
    expect(clock('2026-02-01')).toBe('due');
    expect(clock('2026-02-02')).toBe('complete');
  });

  it('looks only at the interval from what it runs from', () => {
    const intervals = [
      { from: { is: 'observation', code: 'else' }, minimum: { span: { days: 90 }, ...source } },
      { from: { is: 'observation', code: 'seen' }, absoluteMinimum: { span: { days: 10 }, ...source } },
    ];
    const targets = [once('first'), once('again', { on: { is: 'clock', code: 'seen' }, upkeep: true, intervals })];
    const status = (on: string) =>
      small(targets, {}, { history: [given('wormer', on)], observations: [seen('seen', '2026-02-01')] }).on(
        '2026-03-10',
      ).status;
    expect(status('2026-02-10')).toBe('due');
    expect(status('2026-02-11')).toBe('complete');
  });
});

describe('while something goes on, Verifies: PROT-R27', () => {
  const during = [once('during', { on: { is: 'while', code: 'nursing' }, ...fortnightly })];
  const due = (today: string, ...observations: ReturnType<typeof seen>[]) =>
    small(during, {}, { observations }).on(today).due;

  it('it counts from the first day of the stretch, the day it is noted included', () => {
    expect(due('2026-02-10', seen('nursing', '2026-02-10'))).toBe('2026-02-10');
    expect(due('2026-02-20', seen('nursing', '2026-02-10'), seen('nursing', '2026-02-15'))).toBe('2026-02-10');
    const again = [
      seen('nursing', '2026-02-01'),
      seen('nursing', '2026-02-10', { state: 'absent' }),
      seen('nursing', '2026-02-15'),
    ];
    expect(due('2026-02-20', ...again)).toBe('2026-02-15');
    const twice = [seen('nursing', '2026-01-10', { state: 'absent' }), seen('nursing', '2026-01-12'), ...again];
    expect(due('2026-02-20', ...twice)).toBe('2026-02-15');
    // Told late, about a day before the last: the stretch that began since then is not the one before it.
    const late = [seen('nursing', '2026-02-01'), seen('nursing', '2026-02-15'), again[1] as (typeof again)[0]];
    expect(due('2026-02-20', ...late)).toBe('2026-02-15');
    const sameDay = [seen('nursing', '2026-02-10', { state: 'absent' }), seen('nursing', '2026-02-10')];
    expect(due('2026-02-20', ...sameDay)).toBe('2026-02-10');
  });
});

describe('holds, on the day itself, Verifies: PROT-R8', () => {
  const core = (about: Parameters<typeof cat>[0], today: string, protocol = starter) =>
    asking(cat(about), protocol, starterProducts, 'core-vaccine').on(today);

  it('one that a person set begins on its first day', () => {
    expect(core({ holds: [placedHold('2026-02-12', null)] }, '2026-02-11').hold).toBeNull();
    expect(core({ holds: [placedHold('2026-02-12', null)] }, '2026-02-12').hold?.code).toBe('other');
  });

  const vetDecides = starterWith({ 'core-vaccine-felv-reactive': 'veterinarian-decides' });

  it('a reactive test holds from its own day, and its answer of that day lifts it', () => {
    const history = [tested('reactive', '2026-03-01')];
    expect(core({ history }, '2026-03-01', vetDecides).hold?.code).toBe('felv-reactive');
    const answered = [seen('felv-reactive', '2026-03-01', { state: 'absent' })];
    expect(core({ history, observations: answered }, '2026-03-01', vetDecides).hold).toBeNull();
    const before = [seen('felv-reactive', '2026-02-28', { state: 'absent' })];
    expect(core({ history, observations: before }, '2026-03-01', vetDecides).hold?.code).toBe('felv-reactive');
    const confirmed = [seen('felv-reactive', '2026-03-02')];
    expect(core({ history, observations: confirmed }, '2026-03-03', vetDecides).hold?.code).toBe('felv-reactive');
  });

  it('a second reactive test after the answer holds again', () => {
    const history = [tested('reactive', '2026-03-01'), tested('reactive', '2026-03-20')];
    const observations = [seen('felv-reactive', '2026-03-04', { state: 'absent' })];
    expect(core({ history, observations }, '2026-03-21', vetDecides).hold?.code).toBe('felv-reactive');
  });

  it('a queen is asked about from the day she may be old enough', () => {
    const asks = (today: string) => core({ sex: 'female', neutered: 'no' }, today).asks?.length ?? 0;
    expect([asks('2026-04-30'), asks('2026-05-01')]).toEqual([0, 1]);
  });

  it('a weight of today counts', () => {
    const chip = (on: string) => asking(cat({ weighings: [weight(on, 400)] }), starter, null, 'chip').on('2026-02-10');
    expect(chip('2026-02-10').hold?.code).toBe('under-weight');
    expect(chip('2026-02-11').hold).toBeNull();
  });

  it('what is asked has its own words, else those of the rule', () => {
    const rule = (question: string) => ({
      holds: [
        {
          id: 'sick',
          when: { is: 'observation', code: 'sick' },
          present: 'hold',
          unknown: 'hold',
          words: 'Sick: wait.',
          question,
          ...source,
        },
      ],
    });
    const why = (question: string) => small([once('only')], rule(question)).on('2026-02-01').hold?.why.with?.question;
    expect([why('Is it sick?'), why('')]).toEqual(['Is it sick?', 'Sick: wait.']);
  });
});

describe('a test that was begun, Verifies: PROT-R20', () => {
  const run = (more: Partial<TestRun>): TestRun => ({
    run: RunId.parse('run-1'),
    schedule: ScheduleId.parse('felv-test'),
    round: null,
    kitType: null,
    lot: null,
    kitLot: null,
    conjugateLot: null,
    drawnAt: '2026-02-10T09:00:00.000Z',
    volume_ul: 100,
    startedAt: null,
    start: null,
    reading: null,
    readAt: null,
    seen: {},
    result: 'running',
    readRecord: null,
    startRecord: null,
    ...more,
  });
  const hold = (more: Partial<TestRun>, today = '2026-02-10') =>
    asking(cat({ runs: [run(more)] }), starter, null, 'felv-test').on(today).hold?.code ?? null;

  it('holds while blood is drawn or the kit runs, and not for another schedule, a reading or a result', () => {
    expect(hold({})).toBe('test-running');
    expect(hold({ startedAt: '2026-02-12T09:00:00.000Z' }, '2026-02-13')).toBe('test-running');
    expect(hold({ drawnAt: null })).toBeNull();
    expect(hold({ schedule: ScheduleId.parse('fiv-test') })).toBeNull();
    expect(hold({ readRecord: RecordId.parse('read') })).toBeNull();
    expect(hold({ result: 'invalid' })).toBeNull();
  });
});

describe('a chip, Verifies: PROT-R20', () => {
  const ask = (about: Parameters<typeof cat>[0]) => asking(cat(about), starter, null, 'chip').on('2026-03-10');

  it('that was not read holds, whichever record says so; of two the last is named', () => {
    const chip = { code: '985', confirmed: false, record: RecordId.parse('c') };
    expect(ask({ chip }).hold).toMatchObject({ code: 'chip-not-confirmed', why: { with: { chip: '985' } } });
    const history = [chipped('2026-03-01', false, '111'), chipped('2026-03-02', false, '222')];
    expect(ask({ history }).hold?.why.with).toMatchObject({ chip: '222' });
    expect(ask({ history: [chipped('2026-03-01', true)] }).status).toBe('complete');
    expect(ask({ chip: { ...chip, confirmed: true } })).toMatchObject({ status: 'complete', dose: 1, due: null });
  });

  it('put in twice is counted from the last time', () => {
    const put = (on: string) => ({ ...chipped(on), implanted: true }) as ReturnType<typeof chipped>;
    for (const history of [
      [put('2026-03-01'), put('2026-03-08')],
      [put('2026-03-08'), put('2026-03-01')],
    ]) {
      expect(asking(cat({ history }), starter, null, 'chip-recheck').on('2026-03-09').due).toBe('2026-03-09');
    }
  });
});

describe('the order of what happened, Verifies: PROT-R21', () => {
  const at = (on: string, time: string, id: string, bad = false) => ({
    ...given('wormer', on, { time, ...(bad ? { substandard: 'not-taken' as const } : {}) }),
    record: RecordId.parse(id),
  });
  const judged = (...history: ReturnType<typeof at>[]) =>
    small([once('only', fortnightly)], {}, { history })
      .past('2026-04-01')
      .map((one) => `${one.record} ${one.status}`);

  it('is that of days, then of times, then of names', () => {
    const expected = ['b valid', 'a extra'];
    expect(judged(at('2026-02-01', '08:00', 'b'), at('2026-02-01', '09:00', 'a'))).toEqual(expected);
    expect(judged(at('2026-02-01', '09:00', 'a'), at('2026-02-01', '08:00', 'b'))).toEqual(expected);
    expect(judged(at('2026-02-01', '08:00', 'd'), at('2026-02-01', '08:00', 'c'))).toEqual(['c valid', 'd extra']);
    expect(judged(at('2026-02-20', '07:00', 'f'), at('2026-02-01', '08:00', 'e'))).toEqual(['e valid', 'f valid']);
  });

  it('a second one on the day that completed the series is one too many of that day', () => {
    const twice = [at('2026-02-01', '08:00', 'a'), at('2026-02-01', '09:00', 'b'), at('2026-02-02', '09:00', 'c')];
    const reasons = small([once('only')], {}, { history: twice }).past('2026-04-01');
    expect(reasons.map((one) => one.reason)).toEqual(['in-time', 'same-day', 'series-complete']);
  });

  it('three in a wrong order come out right', () => {
    const three = [at('2026-03-01', '08:00', 'c'), at('2026-02-01', '08:00', 'a'), at('2026-02-15', '08:00', 'b')];
    expect(judged(...three)).toEqual(['a valid', 'b valid', 'c valid']);
  });
});
