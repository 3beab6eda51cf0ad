import { describe, expect, it } from 'vitest';
import {
  age,
  asking,
  cat,
  given,
  giving,
  once,
  placedHold,
  protocolOf,
  seen,
  starter,
  starterChanged,
  starterProducts,
  starterWith,
  tested,
  weighed,
} from '../../../../test/support/protocol.js';

describe('a hold set by a person, Verifies: PROT-R8', () => {
  const held = (from: string, until: string | null, schedules: readonly string[] | 'all' = 'all') =>
    asking(cat({ holds: [placedHold(from, until, schedules)] }), starter, starterProducts, 'core-vaccine');

  it('holds while it covers the day the treatment would be done', () => {
    expect(held('2026-02-01', '2026-02-10').on('2026-02-10')).toMatchObject({
      status: 'on-hold',
      hold: { until: '2026-02-10' },
    });
    expect(held('2026-02-01', '2026-02-10').on('2026-02-11')).toMatchObject({ status: 'overdue', hold: null });
    expect(held('2026-02-01', null).on('2026-05-01').status).toBe('on-hold');
    expect(held('2026-02-12', null).on('2026-02-11').status).toBe('overdue');
  });

  it('does not hold what is due after its end', () => {
    expect(held('2026-01-10', '2026-01-20').on('2026-01-15')).toMatchObject({ status: 'not-yet', hold: null });
  });

  it('holds only the schedules it names', () => {
    expect(held('2026-02-01', null, ['roundworm']).on('2026-02-02').hold).toBeNull();
    expect(held('2026-02-01', null, ['core-vaccine']).on('2026-02-02').hold).not.toBeNull();
  });

  it('of several the one that ends last is shown', () => {
    const holds = [
      placedHold('2026-02-01', '2026-02-10'),
      placedHold('2026-02-02', '2026-02-20'),
      placedHold('2026-02-03', '2026-02-05'),
    ];
    expect(asking(cat({ holds }), starter, starterProducts, 'core-vaccine').on('2026-02-04').hold?.until).toBe(
      '2026-02-20',
    );
  });
});

describe('holds by what was seen, Verifies: PROT-R8, PROT-R9', () => {
  const queen = { born: '2025-01-01', arrived: '2026-03-01', sex: 'female', neutered: 'no' } as const;

  it('a pregnancy whose end has come is unknown again: people are asked', () => {
    const animal = cat({ ...queen, observations: [seen('pregnant', '2026-02-01', { until: '2026-03-10' })] });
    const ask = asking(animal, starter, starterProducts, 'core-vaccine');
    expect(ask.on('2026-03-10').hold).toMatchObject({ code: 'pregnant', until: '2026-03-10' });
    expect(ask.on('2026-03-11')).toMatchObject({ status: 'overdue', hold: null });
    expect(ask.on('2026-03-11').asks).toHaveLength(1);
  });

  it('an unknown pregnancy holds where the protocol says so', () => {
    const strict = starterChanged(['schedules', 'core-vaccine', 'holds', 'pregnant', 'unknown'], 'hold');
    expect(asking(cat(queen), strict, starterProducts, 'core-vaccine').on('2026-03-01')).toMatchObject({
      status: 'on-hold',
      hold: { code: 'pregnant-unknown' },
    });
    const kitten = asking(cat({ sex: 'female' }), strict, starterProducts, 'core-vaccine').on('2026-02-10');
    expect(kitten.status).toBe('overdue');
  });

  it('one reactive test holds no core vaccine by default: it is given, with a word of warning', () => {
    const history = [tested('reactive', '2026-03-01')];
    const item = asking(cat({ ...queen, history }), starter, starterProducts, 'core-vaccine').on('2026-03-02');
    expect(item.hold).toBeNull();
    expect(item.asks).toContainEqual(expect.objectContaining({ say: 'due.ask.rule' }));
  });

  it('a hold for a reactive test is lifted by an answer of the medical team', () => {
    const strict = starterWith({ 'core-vaccine-felv-reactive': 'veterinarian-decides' });
    const history = [tested('reactive', '2026-03-01')];
    const held = asking(cat({ ...queen, history }), strict, starterProducts, 'core-vaccine');
    expect(held.on('2026-03-02').hold?.code).toBe('felv-reactive');
    const observations = [seen('felv-reactive', '2026-03-04', { state: 'absent' })];
    const answered = asking(cat({ ...queen, history, observations }), strict, starterProducts, 'core-vaccine');
    expect(answered.on('2026-03-04').hold).toBeNull();
  });
});

describe('an age that nobody knows, Verifies: PROT-R23', () => {
  const stray = { bornFrom: '2001-03-01', born: '2026-03-01', arrived: '2026-03-01', basis: 'unknown' } as const;
  const ask = (schedule: string, protocol = starter, history: ReturnType<typeof given>[] = []) =>
    asking(cat({ ...stray, history }), protocol, starterProducts, schedule);

  it('holds what depends on it, on the day it would be due were the animal old enough', () => {
    for (const schedule of ['core-vaccine', 'roundworm', 'felv-test', 'chip']) {
      expect(ask(schedule).on('2026-03-01')).toMatchObject({
        status: 'on-hold',
        due: '2026-03-01',
        hold: { code: 'age-unknown', until: null },
      });
    }
  });

  it('or asks, where the protocol says so', () => {
    const item = ask('core-vaccine', starterWith({ 'age-unknown': 'ask' })).on('2026-03-01');
    expect(item).toMatchObject({ status: 'due', due: '2026-03-01', hold: null });
    expect(item.asks?.map((one) => one.say)).toEqual(['due.ask.age-unknown']);
  });

  it('asks so first, then what is asked anyway', () => {
    const queen = cat({ ...stray, sex: 'female', neutered: 'no' });
    const protocol = starterWith({ 'age-unknown': 'ask' });
    const item = asking(queen, protocol, starterProducts, 'core-vaccine').on('2026-03-01');
    expect(item.asks?.map((one) => one.say)).toEqual(['due.ask.age-unknown', 'due.ask.unknown']);
  });

  it('with the same day for both takes the answer for the oldest it may be', () => {
    const late = once('only', { on: { is: 'arrival' }, age: { latestRecommended: age({ weeks: 8 }) } });
    const protocol = { ...protocolOf(giving('wormer', [late])), ageUnknown: 'ask' as const };
    // Two years old or born today, it is due on the day it came; for the one it is late by now.
    const item = asking(cat({ ...stray, born: '2026-03-01' }), protocol, null, 'wormer').on('2026-03-02');
    expect(item).toMatchObject({ due: '2026-03-01', status: 'overdue' });
  });

  it('never holds weighing nor what does not depend on it', () => {
    expect(ask('weighing').on('2026-03-01').status).toBe('due');
    expect(ask('flea').on('2026-03-01').status).toBe('due');
  });

  it('weighs as often as the youngest would need', () => {
    const animal = cat({ ...stray, history: [weighed('2026-03-01')] });
    expect(asking(animal, starter, null, 'weighing').on('2026-03-01').due).toBe('2026-03-02');
  });

  it('leaves it to a person whether a grown cat or a kitten has had enough', () => {
    const two = [given('core-vaccine-live', '2026-03-29'), given('core-vaccine-live', '2026-04-12')];
    expect(ask('core-vaccine', starter, two).on('2026-04-12')).toMatchObject({ status: 'on-hold', due: '2026-04-26' });
  });
});
