import { describe, expect, it } from 'vitest';
import { asking, cat, day, seen, starter, starterProducts, tested } from '../../../../test/support/protocol.js';
import type { FollowUp, FollowUpSays } from '../../animal/follow-up.js';
import { PersonId, RecordId, ScheduleId } from '../../ids.js';

const reactive = tested('reactive', '2026-03-01');
const followUp = (says: FollowUpSays, on: string): FollowUp => ({
  record: RecordId.parse(`word-${on}`),
  at: `${on}T12:00:00Z`,
  schedule: ScheduleId.parse('felv-test'),
  says,
  person: PersonId.parse('vet'),
  by: PersonId.parse('vet'),
});
const plan = followUp({ is: 'plan', what: 'another method', on: day('2026-03-31') }, '2026-03-02');
const result = (outcome: 'confirmed' | 'not-confirmed' | 'unclear', on = '2026-03-20'): FollowUp =>
  followUp({ is: 'result', method: 'second antigen test', outcome, on: day(on) }, on);

const felv = (today: string, ...followUps: FollowUp[]) =>
  asking(cat({ history: [reactive], followUps }), starter, null, 'felv-test').on(today);

describe('a reactive test, Verifies: PROT-R50', () => {
  it('stays with the medical team for as long as nobody has said anything', () => {
    for (const today of ['2026-03-01', '2026-09-01', '2028-03-01']) {
      expect(felv(today)).toMatchObject({ status: 'to-confirm', due: '2026-03-01', confirm: { state: 'open' } });
    }
  });

  it('goes to the day of a plan, and is open again when that day is over', () => {
    expect(felv('2026-03-31', plan)).toMatchObject({
      status: 'to-confirm',
      due: '2026-03-31',
      overdueAfter: '2026-03-31',
      confirm: { state: 'planned' },
      because: { say: 'due.reactive.planned' },
    });
    expect(felv('2026-04-01', plan)).toMatchObject({
      status: 'to-confirm',
      confirm: { state: 'passed' },
      because: { say: 'due.reactive.plan-passed' },
    });
  });

  it('is settled by the result of another method, not by an unclear one', () => {
    expect(felv('2026-04-01', plan, result('unclear'))).toMatchObject({
      status: 'to-confirm',
      confirm: { state: 'open' },
    });
    for (const outcome of ['confirmed', 'not-confirmed'] as const) {
      expect(felv('2026-04-01', plan, result(outcome))).toMatchObject({
        status: 'complete',
        confirm: { state: outcome },
        because: { say: `due.reactive.${outcome}` },
      });
    }
  });

  it('is not settled by a word from before it, nor by a test that nobody asked for', () => {
    expect(felv('2026-04-01', result('not-confirmed', '2026-02-20')).status).toBe('to-confirm');
    const twice = cat({ history: [reactive, tested('negative', '2026-03-05')] });
    expect(asking(twice, starter, null, 'felv-test').on('2026-03-06').status).toBe('to-confirm');
  });

  it('of a kitten is settled by the test that the protocol asks for at 6 months', () => {
    const history = [tested('reactive', '2026-02-10', 'fiv-test'), tested('negative', '2026-07-01', 'fiv-test')];
    const kitten = cat({ history, observations: [seen('fiv-at-risk', '2026-02-01')] });
    const of = asking(kitten, starter, null, 'fiv-test');
    expect(of.on('2026-03-01').status).toBe('to-confirm');
    expect(of.on('2026-07-01')).toMatchObject({ status: 'complete' });
    expect(of.on('2026-07-01').confirm).toBeUndefined();
  });

  it('holds the FeLV vaccine until another method has not confirmed it', () => {
    const vaccine = (...followUps: FollowUp[]) =>
      asking(
        cat({ history: [reactive], followUps, observations: [seen('felv-at-risk', '2026-03-01')] }),
        starter,
        starterProducts,
        'felv-vaccine',
      ).on('2026-04-01').hold?.code;
    expect(vaccine()).toBe('reactive-first');
    expect(vaccine(result('confirmed'))).toBe('reactive-first');
    expect(vaccine(result('not-confirmed'))).toBeUndefined();
  });
});
