import { describe, expect, it, test } from 'vitest';
import {
  afterPrevious,
  age,
  asking,
  cat,
  catalogueOf,
  day,
  given,
  giving,
  once,
  protocolOf,
  starter,
  starterChanged,
  starterProducts,
  tested,
} from '../../../../test/support/protocol.js';
import type { ProtocolInput } from '../input.js';
import { evaluate } from './evaluate.js';

const vaccine = (on: string, more?: Parameters<typeof given>[2]) => given('core-vaccine-live', on, more);
const core = (...history: ReturnType<typeof given>[]) =>
  asking(cat({ history }), starter, starterProducts, 'core-vaccine');
const verdicts = (ask: ReturnType<typeof core>, today: string): string[] =>
  ask.past(today).map(({ status, reason, dose }) => `${dose ?? '-'} ${status} ${reason}`);

describe('impossible dates change nothing, Verifies: PROT-R21', () => {
  it('a dose dated after today does not count and moves no date', () => {
    const ask = core(vaccine('2026-02-10'), vaccine('2026-12-24'));
    expect(verdicts(ask, '2026-02-11')).toEqual(['1 valid in-time', '- not-valid in-the-future']);
    expect(ask.on('2026-02-11')).toEqual(core(vaccine('2026-02-10')).on('2026-02-11'));
  });

  it('it counts from its own day on', () => {
    expect(verdicts(core(vaccine('2026-02-10')), '2026-02-09')).toEqual(['- not-valid in-the-future']);
    expect(verdicts(core(vaccine('2026-02-10')), '2026-02-10')).toEqual(['1 valid in-time']);
  });

  it('a dose dated before birth does not count and moves no date', () => {
    const ask = core(vaccine('2025-12-31'), vaccine('2026-02-10'));
    expect(verdicts(ask, '2026-02-11')).toEqual(['- not-valid before-birth', '1 valid in-time']);
    expect(ask.on('2026-02-11').due).toBe('2026-02-24');
  });

  it('a second one on a day is extra and moves no date', () => {
    const ask = core(vaccine('2026-02-10', { time: '09:00' }), vaccine('2026-02-10', { time: '17:30' }));
    expect(verdicts(ask, '2026-02-11')).toEqual(['1 valid in-time', '- extra same-day']);
    expect(ask.on('2026-02-11')).toMatchObject({ dose: 2, due: '2026-02-24' });
  });
});

describe('doses that do not satisfy', () => {
  it('one from a bad lot is repeated, and still keeps its interval, Verifies: PROT-R19', () => {
    const ask = core(vaccine('2026-02-10', { substandard: 'expired-lot' }));
    expect(verdicts(ask, '2026-02-10')).toEqual(['1 substandard expired-lot']);
    expect(ask.on('2026-02-10')).toMatchObject({ dose: 1, status: 'not-yet', due: '2026-02-24' });
  });

  it('one that was not taken is due as before, Verifies: PROT-R19', () => {
    const worm = given('roundworm', '2026-02-10', { substandard: 'not-taken' });
    const ask = asking(cat({ arrived: '2026-02-10', history: [worm] }), starter, starterProducts, 'roundworm');
    expect(ask.past('2026-02-10')).toMatchObject([{ status: 'substandard', reason: 'not-taken' }]);
    expect(ask.on('2026-02-10')).toMatchObject({ dose: 1, status: 'due' });
    const again = [worm, given('roundworm', '2026-02-10', { time: '09:10' })];
    const both = asking(cat({ arrived: '2026-02-10', history: again }), starter, starterProducts, 'roundworm');
    expect(both.past('2026-02-10').map((one) => one.status)).toEqual(['substandard', 'valid']);
  });

  it('a product that no formulary knows does not count, but keeps its interval', () => {
    const ask = core(given('from-another-clinic', '2026-02-10', { schedule: 'core-vaccine' }));
    expect(verdicts(ask, '2026-02-10')).toEqual(['1 not-valid product-unknown']);
    expect(ask.on('2026-02-10').due).toBe('2026-02-24');
  });

  it('a product taken off the list still counts for what was given then', () => {
    const animal = cat({ history: [vaccine('2026-02-10', { schedule: 'core-vaccine' })] });
    const formulary = catalogueOf('roundworm');
    const verdict = (input: ProtocolInput): string | undefined =>
      evaluate(input, starter, day('2026-02-10')).find((one) => one.schedule === 'core-vaccine')?.reason;
    expect(verdict({ animal, formulary })).toBe('product-unknown');
    expect(verdict({ animal, formulary, formerFormularies: [starterProducts] })).toBe('in-time');
    expect(verdict({ animal, formulary: null, formerFormularies: [starterProducts] })).toBe('in-time');
  });

  it('a wormer written under the vaccine is no vaccine, and is a wormer, Verifies: PROT-R7', () => {
    const animal = cat({ history: [given('roundworm', '2026-02-10', { schedule: 'core-vaccine' })] });
    const asVaccine = asking(animal, starter, starterProducts, 'core-vaccine');
    expect(asVaccine.past('2026-02-10')).toMatchObject([{ status: 'not-valid', reason: 'product-of-other-class' }]);
    expect(asVaccine.on('2026-02-10').due).toBe('2026-01-29');
    const asWormer = asking(animal, starter, starterProducts, 'roundworm');
    expect(asWormer.past('2026-02-10')).toMatchObject([{ status: 'valid', dose: 1 }]);
    expect(asWormer.on('2026-02-10').due).toBe('2026-02-24');
  });

  it('a combination counts for each of its parts, Verifies: PROT-R7', () => {
    const protocol = protocolOf(giving('core', [once('one')]), giving('felv', [once('one')]));
    const animal = cat({ history: [given('core-and-felv', '2026-03-01')] });
    const products = catalogueOf('core+felv');
    for (const part of ['core', 'felv']) {
      expect(asking(animal, protocol, products, part).past('2026-03-01')).toMatchObject([{ status: 'valid' }]);
    }
  });

  it('one that came too soon tells from when it would have counted', () => {
    const ask = core(vaccine('2026-02-10'), vaccine('2026-02-20'));
    expect(ask.past('2026-02-20').at(-1)).toMatchObject({
      status: 'not-valid',
      reason: 'too-soon',
      validFrom: '2026-02-24',
    });
    expect(ask.on('2026-02-20')).toMatchObject({ dose: 2, due: '2026-03-06' });
  });
});

describe('which series, Verifies: PROT-R5', () => {
  it('a dose that did not count does not choose it', () => {
    const ask = core(vaccine('2026-01-20'), vaccine('2026-06-01'));
    expect(verdicts(ask, '2026-06-01')).toEqual(['1 not-valid too-young', '1 valid in-time']);
    expect(ask.on('2026-06-01')).toMatchObject({ status: 'not-yet', dose: 2, due: '2026-06-15' });
  });

  it('a kitten that grew up before its first dose is a grown cat', () => {
    const ask = asking(cat({ arrived: '2026-05-20' }), starter, starterProducts, 'core-vaccine');
    expect(ask.on('2026-05-20').because.say).toBe('due.then-ends');
    expect(ask.on('2026-05-21').because.say).toBe('due.arrival');
  });

  it('an early start closes with one dose after the end age, however late', () => {
    const ask = core(vaccine('2026-02-10'), vaccine('2028-02-10'));
    expect(ask.on('2028-02-10')).toMatchObject({ status: 'complete', dose: 3 });
  });
});

describe('gaps, Verifies: PROT-R10', () => {
  const second = { intervals: [afterPrevious({ minimum: { weeks: 3 } })] };
  const products = catalogueOf('felv');
  const animal = cat({ born: '2025-01-01', history: [given('felv', '2026-03-01'), given('felv', '2026-05-01')] });

  it('a series goes on after a gap', () => {
    const goesOn = protocolOf(giving('felv', [once('first'), once('second', second)]));
    expect(asking(animal, goesOn, products, 'felv').on('2026-05-01').status).toBe('complete');
  });

  it('and begins again only where the protocol gives a longest gap', () => {
    const longest = { restartAfter: { span: { weeks: 6 }, source: 'test-source', standing: 'read' } };
    const begins = protocolOf(giving('felv', [once('first'), once('second', { ...second, ...longest })]));
    expect(asking(animal, begins, products, 'felv').on('2026-05-01')).toMatchObject({ dose: 2, due: '2026-05-22' });
  });
});

describe('skips, Verifies: PROT-R6', () => {
  const grounds = { source: 'test-source', standing: 'read' };
  const skipped = (all: readonly object[]) =>
    protocolOf(
      giving('felv', [
        once('first'),
        once('second', { skip: [{ all, words: 'left out', ...grounds }] }),
        once('third'),
      ]),
      giving('core', [once('one')]),
    );
  const products = catalogueOf('felv', 'core');
  const history = [given('felv', '2026-03-01'), given('felv', '2026-04-01')];
  const places = (all: readonly object[], more: ReturnType<typeof given>[] = []): string =>
    asking(cat({ history: [...history, ...more] }), skipped(all), products, 'felv').on('2026-04-01').status;

  test.each([
    ['nothing seen', [{ is: 'observed', code: 'proof' }], 'due'],
    ['old enough', [{ is: 'age', from: age({ weeks: 4 }) }], 'complete'],
    ['not old enough', [{ is: 'age', from: age({ years: 4 }) }], 'due'],
    [
      'young enough, but not all hold',
      [
        { is: 'age', under: age({ years: 4 }) },
        { is: 'observed', code: 'proof' },
      ],
      'due',
    ],
    ['one dose since 8 weeks', [{ is: 'doses', atLeast: 1, from: age({ weeks: 8 }) }], 'complete'],
    ['two doses by then', [{ is: 'doses', atLeast: 2 }], 'due'],
    ['other schedule open', [{ is: 'complete', schedule: 'core' }], 'due'],
  ])('%s', (_, all, status) => {
    expect(places(all)).toBe(status);
  });

  it('other schedule complete', () => {
    expect(places([{ is: 'complete', schedule: 'core' }], [given('core', '2026-02-01')])).toBe('complete');
  });

  it('schedules that wait for each other in a ring still answer', () => {
    const ring = (id: string, other: string) =>
      giving(id, [once('one', { skip: [{ all: [{ is: 'complete', schedule: other }], words: 'ring', ...grounds }] })]);
    const protocol = protocolOf(ring('felv', 'core'), ring('core', 'felv'));
    expect(asking(cat(), protocol, products, 'felv').on('2026-03-01').status).toBe('due');
  });
});

describe('tests', () => {
  it('count under their own schedule only', () => {
    const ask = asking(
      cat({ history: [tested('negative', '2026-03-01', 'another-test')] }),
      starter,
      null,
      'felv-test',
    );
    expect(ask.past('2026-03-01')).toEqual([]);
  });

  it('after the first with a result are extra', () => {
    const history = [tested('negative', '2026-03-01'), tested('reactive', '2026-04-01')];
    const ask = asking(cat({ history }), starter, null, 'felv-test');
    expect(ask.past('2026-04-01').map((one) => one.status)).toEqual(['valid', 'extra']);
  });

  it('the youngest age is what the protocol says, Verifies: PROT-R2', () => {
    const at = ['schedules', 'felv-test', 'series', 'once', 'targets', 'test', 'age', 'minimum', 'span'];
    const protocol = starterChanged(at, { weeks: 8 });
    expect(asking(cat(), protocol, null, 'felv-test').on('2026-02-05').due).toBe('2026-02-26');
  });
});
