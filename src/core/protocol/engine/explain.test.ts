import { describe, expect, it } from 'vitest';
import {
  afterPrevious,
  age,
  asking,
  cat,
  catalogueOf,
  given,
  giving,
  once,
  protocolOf,
  seen,
  tested,
} from '../../../../test/support/protocol.js';
import { spanSaid, spanText } from '../document/spans.js';

/** Which sentence is said, and with what; the words themselves are tested with the catalogue. */
const products = catalogueOf('wormer');
type About = Parameters<typeof cat>[0];
const item = (targets: readonly object[], today: string, about: About = {}, more: object = {}) =>
  asking(cat(about), protocolOf(giving('wormer', targets, more)), products, 'wormer').on(today);
const because = (...args: Parameters<typeof item>) => item(...args).because;
const until = (ends: string) => ({ repeats: { until: age({ weeks: 12 }), ends } });

describe('how long it goes on', () => {
  it('says whether another step follows, the series ends, or none is due from an age on', () => {
    const say = (ends: string, ...next: object[]) => because([once('first', until(ends)), ...next], '2026-02-01').say;
    expect(say('before')).toBe('due.then-stops');
    expect(say('with-a-dose-at-or-after')).toBe('due.then-ends');
    expect(say('before', once('next'))).toBe('due.then-changes');
    expect(say('before', once('booster', { upkeep: true }))).toBe('due.then-stops');
    expect(
      because([once('before', { age: { maximum: age({ weeks: 1 }) }, ...until('before') })], '2026-01-02').with?.span,
    ).toEqual({
      say: 'due.span.weeks',
      with: { n: 12 },
    });
  });
});

describe('numbers of doses', () => {
  const what = (targets: readonly object[], more: object = {}) => {
    const said = because(targets, '2026-02-01', {}, more).with?.what;
    return typeof said === 'object' && 'say' in said ? said.say : '';
  };
  it('are said of a course or a repeated treatment, not of a single one or a look', () => {
    expect(what([once('a'), once('b')])).toBe('due.what.dose');
    expect(what([once('a', { repeats: { until: null, ends: 'before' } })])).toBe('due.what.dose');
    expect(what([once('a')])).toBe('due.what');
    expect(what([once('a'), once('b')], { action: 'look' })).toBe('due.what');
    // Grown cats need one, kittens two: doses of this schedule are numbered for both.
    const grown = { id: 'grown', name: 'Grown', start: { from: age({ weeks: 20 }) }, targets: [once('a')] };
    const kitten = { id: 'kitten', name: 'Kitten', targets: [once('a'), once('b')] };
    expect(what([], { series: [grown, kitten] })).toBe('due.what.dose');
  });
});

describe('what one was worth', () => {
  const judged = (...targets: object[]) => {
    const about = { history: [given('wormer', '2026-02-01')] };
    return asking(cat(about), protocolOf(giving('wormer', targets)), products, 'wormer').past('2026-02-02')[0]?.why;
  };
  it('has the number of the dose in a course, none for a single one', () => {
    expect(judged(once('a'), once('b'))).toMatchObject({ say: 'due.judged.valid-dose', with: { dose: 1 } });
    expect(judged(once('a'))?.say).toBe('due.judged.valid');
  });
});

describe('after one that did not count', () => {
  const test = (...history: ReturnType<typeof tested>[]) => {
    const protocol = protocolOf({
      ...giving('blood', [once('only', { age: { minimum: age({ weeks: 5 }) } })]),
      action: 'test',
    });
    return asking(cat({ history }), protocol, null, 'blood');
  };
  it('says so when that is why it is due, the day itself included', () => {
    expect(test(tested('invalid', '2026-02-10', 'blood')).on('2026-02-10').because).toMatchObject({
      say: 'due.again',
      with: { on: { date: '2026-02-10' } },
    });
    // One that is dated later than today, by a slip of the hand, is not the last one.
    expect(
      test(tested('invalid', '2026-02-10', 'blood'), tested('negative', '2026-12-10', 'blood')).on('2026-02-10').because
        .say,
    ).toBe('due.again');
    // Too young when it was done: its age decides, not the test.
    expect(test(tested('invalid', '2026-01-20', 'blood')).on('2026-01-20').because.say).toBe('due.age');
    expect(test(tested('invalid', '2026-02-05', 'blood')).on('2026-02-05').because.say).toBe('due.again');
  });

  it('the reason is that of the last one', () => {
    const two = [given('wormer', '2026-02-01'), given('wormer', '2026-02-05')];
    const weeks = [
      once('r', { repeats: { until: null, ends: 'before' }, intervals: [afterPrevious({ minimum: { weeks: 2 } })] }),
    ];
    expect(because(weeks, '2026-02-06', { history: two })).toMatchObject({
      say: 'due.interval.not-counted',
      with: { reason: { say: 'due.reason.too-soon' }, on: { date: '2026-02-05' } },
    });
    const bad = [given('wormer', '2026-02-01'), given('wormer', '2026-02-20', { substandard: 'expired-lot' })];
    expect(because(weeks, '2026-02-21', { history: bad })).toMatchObject({
      with: { reason: { say: 'due.reason.expired-lot' } },
    });
  });
});

describe('the last reactive test', () => {
  it('is the one that is named', () => {
    const target = once('only', { repeats: { until: age({ weeks: 6 }), ends: 'with-a-dose-at-or-after' } });
    const protocol = protocolOf({ ...giving('blood', [target]), action: 'test' });
    const history = [tested('reactive', '2026-01-20', 'blood'), tested('reactive', '2026-02-20', 'blood')];
    expect(asking(cat({ history }), protocol, null, 'blood').on('2026-03-01').because.with).toMatchObject({
      on: { date: '2026-02-20' },
    });
  });
});

describe('times of a day', () => {
  const times = (list: readonly string[]) =>
    because([once('only', { times: list, repeats: { until: null, ends: 'before' } })], '2026-02-01').say;
  it('are named when there is more than one', () => {
    expect(times(['08:00', '17:00'])).toBe('due.times');
    expect(times(['08:00'])).not.toBe('due.times');
  });
  it('are listed when the protocol names any, one too', () => {
    const listed = (list: readonly string[]) => item([once('only', { times: list })], '2026-02-01').times;
    expect(listed([])).toBeUndefined();
    expect(listed(['08:00'])).toEqual([{ on: '2026-02-01', at: '08:00', state: 'open', why: null }]);
  });
});

describe('on need', () => {
  it('says when it was done last and not before when again, only once it was done', () => {
    const target = [
      once('r', { on: { is: 'observation', code: 'fleas' }, intervals: [afterPrevious({ minimum: { weeks: 4 } })] }),
    ];
    expect(because(target, '2026-02-01').say).toBe('due.on-need');
    const again = [once('first'), ...target];
    expect(because(again, '2026-02-10', { history: [given('wormer', '2026-02-01')] })).toMatchObject({
      say: 'due.on-need.again',
      with: { on: { date: '2026-02-01' }, date: { date: '2026-03-01' } },
    });
    const spat = [given('wormer', '2026-02-01', { substandard: 'not-taken' })];
    expect(because(target, '2026-02-10', { history: spat }).say).toBe('due.on-need');
    expect(item(target, '2026-02-10', { observations: [seen('fleas', '2026-02-10')] }).status).toBe('due');
  });

  it('a test on need that came to nothing is no test done', () => {
    const target = once('r', { on: { is: 'observation', code: 'fever' } });
    const protocol = protocolOf({ ...giving('blood', [target]), action: 'test' });
    const ask = (...history: ReturnType<typeof tested>[]) =>
      asking(cat({ history }), protocol, null, 'blood').on('2026-02-10');
    expect(ask(tested('invalid', '2026-02-01', 'blood'))).toMatchObject({
      status: 'not-recommended',
      because: { say: 'due.on-need.again' },
    });
  });
});

describe('spans', () => {
  it('are said in the units of their source, and less where they take away', () => {
    expect(spanSaid({ weeks: 2 })).toEqual({ say: 'due.span.weeks', with: { n: 2 } });
    expect(spanSaid({})).toEqual({ say: 'due.span.days', with: { n: 0 } });
    expect(spanSaid({ months: 12, days: -4 })).toEqual({
      say: 'due.span.sum',
      with: {
        parts: {
          list: [
            { say: 'due.span.months', with: { n: 12 } },
            { say: 'due.span.less', with: { part: { say: 'due.span.days', with: { n: 4 } } } },
          ],
        },
      },
    });
    expect([spanText({ weeks: 2 }), spanText({ months: 12, days: -4 }), spanText({})]).toEqual([
      'P2W',
      'P12M-4D',
      'P0D',
    ]);
  });
});
