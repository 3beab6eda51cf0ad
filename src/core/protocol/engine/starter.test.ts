import { describe, expect, it, test } from 'vitest';
import {
  type About,
  asking,
  cat,
  catalogueOf,
  day,
  dayAfter,
  dayBefore,
  given,
  plus,
  seen,
  starter,
  starterWith,
  tested,
} from '../../../../test/support/protocol.js';
import type { ProtocolDocument } from '../document/document.js';
import type { Catalogue } from '../input.js';
import { evaluate } from './evaluate.js';
import { forecast } from './forecast.js';

/** The schedules of the starter protocol, each probed a day before, on and after its limits. */
const products = catalogueOf(
  'core-vaccine-live',
  'rabies-vaccine',
  'felv-vaccine',
  'roundworm',
  'coccidia',
  'tapeworm',
  'topical-flea',
  'ear-mite',
);
const ask = (of: string, about: About = {}, protocol: ProtocolDocument = starter, formulary: Catalogue = products) =>
  asking(cat(about), protocol, formulary, of);
const statuses = (of: ReturnType<typeof ask>, ...days: string[]): string[] => days.map((on) => of.on(on).status);

describe('rabies', () => {
  const born = '2026-01-01';

  it('is due from 3 months, on the day, Verifies: PROT-R2', () => {
    expect(statuses(ask('rabies', { born }), '2026-03-31', '2026-04-01', '2026-04-02')).toEqual([
      'not-yet',
      'due',
      'due',
    ]);
    const early = ask('rabies', { born, history: [given('rabies-vaccine', '2026-03-31')] });
    expect(early.past('2026-05-01')[0]).toMatchObject({
      status: 'not-valid',
      reason: 'too-young',
      validFrom: '2026-04-01',
    });
  });

  test.each([
    ['eight-weeks', '2026-02-26'],
    ['twelve-weeks', '2026-03-26'],
    ['three-months', '2026-04-01'],
  ])('from the age the place has chosen: %s', (option, first) => {
    const from = ask('rabies', { born }, starterWith({ 'rabies-youngest': option }));
    expect(statuses(from, dayBefore(first), first)).toEqual(['not-yet', 'due']);
  });

  // California Code of Regulations 17 s. 2606: at least 10 days after the day of the bite; that the vaccine waits: from memory.
  it('waits for the observation after a bite, unless the place has chosen otherwise', () => {
    const observations = [seen('bite', '2026-05-01')];
    const bitten = ask('rabies', { born, observations });
    expect(statuses(bitten, '2026-04-30', '2026-05-01', '2026-05-11', '2026-05-12')).toEqual([
      'due',
      'on-hold',
      'on-hold',
      'due',
    ]);
    expect(bitten.on('2026-05-02').hold).toMatchObject({ code: 'bite', until: '2026-05-11', from: '2026-05-01' });
    const going = ask('rabies', { born, observations }, starterWith({ 'rabies-after-bite': 'go-on' }));
    expect(statuses(going, '2026-05-02')).toEqual(['due']);
    const watched = ask('rabies', {
      born,
      observations: [seen('bite-observation', '2026-05-01', { until: day('2026-05-20') })],
    });
    expect(statuses(watched, '2026-05-20', '2026-05-21')).toEqual(['on-hold', 'due']);
  });

  it('by 4 months where a city says so', () => {
    const city = ask('rabies', { born }, starterWith({ 'rabies-youngest': 'three-to-four-months' }));
    expect(statuses(city, '2026-05-01', '2026-05-02')).toEqual(['due', 'overdue']);
  });

  it('is not there where the law does not ask for it, Verifies: PROT-R24', () => {
    const without = starterWith({ 'rabies-law': 'no' });
    const input = { animal: cat({ history: [given('rabies-vaccine', '2026-05-01')] }), formulary: products };
    expect(forecast(input, without, day('2026-06-01')).map((item) => item.schedule)).not.toContain('rabies');
    expect(evaluate(input, without, day('2026-06-01'))).toEqual([]);
  });

  test.each([
    ['fourteen-days', 14],
    ['twenty-eight-days', 28],
    ['thirty-days', 30],
  ])('a first dose counts in law after %s, later ones at once, Verifies: PROT-R35', (option, days) => {
    const history = [given('rabies-vaccine', '2026-05-01'), given('rabies-vaccine', '2027-05-01')];
    const past = ask('rabies', { born, history }, starterWith({ 'rabies-protects': option })).past('2027-06-01');
    expect(past.map((one) => one.protectsFrom)).toEqual([plus('2026-05-01', { days }), '2027-05-01']);
    const early = ask('rabies', { born, history: [given('rabies-vaccine', '2026-02-01')] }).past('2026-06-01');
    expect(early[0]?.protectsFrom).toBeNull();
  });

  it('is complete until its booster is due, Verifies: PROT-R26', () => {
    const one = ask('rabies', { born, history: [given('rabies-vaccine', '2026-05-01')] });
    expect(one.on('2027-04-30')).toMatchObject({
      status: 'complete',
      due: '2027-05-01',
      because: { say: 'due.complete.next' },
    });
    expect(statuses(one, '2027-05-01', '2027-05-02')).toEqual(['due', 'overdue']);
    const two = [given('rabies-vaccine', '2026-05-01'), given('rabies-vaccine', '2027-07-01')];
    expect(ask('rabies', { born, history: two }).on('2028-06-30')).toMatchObject({
      status: 'complete',
      due: '2028-07-01',
    });
    const three = ask('rabies', { born, history: two }, starterWith({ 'rabies-later': 'three-years' }));
    expect(three.on('2028-07-01').due).toBe('2030-07-01');
  });
});

describe('core vaccine after the series, Verifies: PROT-R26', () => {
  const last = {
    born: '2026-01-01',
    history: [given('core-vaccine-live', '2026-05-07'), given('core-vaccine-live', '2026-05-21')],
  };

  it('is kept up at 6 months, or a year later, then every 3 years', () => {
    expect(statuses(ask('core-vaccine', last), '2026-06-30', '2026-07-01')).toEqual(['complete', 'due']);
    const year = ask('core-vaccine', last, starterWith({ 'core-vaccine-booster': 'one-year' }));
    expect(statuses(year, '2027-05-20', '2027-05-21')).toEqual(['complete', 'due']);
    const history = [...last.history, given('core-vaccine-live', '2026-07-10')];
    expect(ask('core-vaccine', { ...last, history }).on('2026-08-01')).toMatchObject({
      status: 'complete',
      due: '2029-07-10',
    });
  });

  it('is not asked for at 6 months when a dose came at that age already, Verifies: PROT-R6', () => {
    const late = {
      born: '2026-01-01',
      history: [given('core-vaccine-live', '2026-05-01'), given('core-vaccine-live', '2026-07-01')],
    };
    expect(ask('core-vaccine', late).on('2026-07-15').due).toBe('2029-07-01');
    const before = {
      ...late,
      history: [given('core-vaccine-live', '2026-05-01'), given('core-vaccine-live', '2026-06-30')],
    };
    expect(ask('core-vaccine', before).on('2026-07-14').due).toBe('2026-07-14');
  });
});

describe('FeLV vaccine', () => {
  const risk = seen('felv-at-risk', '2026-03-01');
  const negative = tested('negative', '2026-03-01');

  it('waits for the test, and for the medical team when it was reactive, Verifies: PROT-R13', () => {
    expect(ask('felv-vaccine', { observations: [risk] }).on('2026-03-02')).toMatchObject({
      status: 'on-hold',
      hold: { code: 'needs-first' },
    });
    expect(ask('felv-vaccine', { observations: [risk], history: [negative] }).on('2026-03-02').status).toBe('due');
    expect(
      ask('felv-vaccine', { observations: [risk], history: [tested('reactive', '2026-03-01')] }).on('2026-03-02').hold
        ?.code,
    ).toBe('reactive-first');
  });

  it('is for cats at risk from 8 weeks, or all up to 1 year', () => {
    expect(ask('felv-vaccine', { history: [negative] }).on('2026-03-02').status).toBe('not-recommended');
    const young = { observations: [seen('felv-at-risk', '2026-02-10')], history: [tested('negative', '2026-02-10')] };
    expect(statuses(ask('felv-vaccine', young), '2026-02-25', '2026-02-26')).toEqual(['not-yet', 'due']);
    const all = starterWith({ 'felv-vaccine-whom': 'under-one-year' });
    expect(ask('felv-vaccine', { history: [negative] }, all).on('2026-03-02').status).toBe('due');
    expect(statuses(ask('felv-vaccine', {}, all), '2027-01-01', '2027-01-02')).toEqual(['on-hold', 'not-recommended']);
  });

  it('is due again where it begins again: what was seen still calls for it, Verifies: PROT-R10', () => {
    const one = { observations: [risk], history: [negative, given('felv-vaccine', '2026-03-02')] };
    expect(statuses(ask('felv-vaccine', one), '2026-04-13', '2026-04-14')).toEqual(['overdue', 'due']);
    const begun = { ...one, history: [...one.history, given('felv-vaccine', '2026-04-20')] };
    expect(ask('felv-vaccine', begun).on('2026-04-20')).toMatchObject({ dose: 2, due: '2026-05-11' });
  });

  it('has its second dose 3 to 4 weeks later, and begins again after more than 6, Verifies: PROT-R10', () => {
    const one = { observations: [risk], history: [negative, given('felv-vaccine', '2026-03-02')] };
    const of = ask('felv-vaccine', one);
    expect(statuses(of, '2026-03-22', '2026-03-23', '2026-03-30', '2026-03-31')).toEqual([
      'not-yet',
      'due',
      'due',
      'overdue',
    ]);
    expect([of.on('2026-04-13').dose, of.on('2026-04-14').dose]).toEqual([2, 1]);
    const two = ask('felv-vaccine', one, starterWith({ 'felv-vaccine-gap': 'two-to-four-weeks' }));
    expect(statuses(two, '2026-03-15', '2026-03-16')).toEqual(['not-yet', 'due']);
    expect(ask('felv-vaccine', one, starterWith({ 'felv-vaccine-lapsed': 'go-on' })).on('2026-06-01').dose).toBe(2);
  });
});

describe('a retest clock, Verifies: PROT-R27', () => {
  const exposed = seen('felv-exposed', '2026-03-10');
  const first = tested('negative', '2026-02-10');

  it('runs from the exposure, whatever was tested before', () => {
    const clock = ask('felv-test', { history: [first], observations: [exposed] });
    expect(statuses(clock, '2026-03-10', '2026-04-08', '2026-04-09', '2026-04-10')).toEqual([
      'complete',
      'complete',
      'due',
      'overdue',
    ]);
    const sameDay = ask('felv-test', { history: [tested('negative', '2026-03-10')], observations: [exposed] });
    expect(sameDay.on('2026-04-09').status).toBe('due');
  });

  it('is not stopped by a test before its end, and is by one on it', () => {
    const early = ask('felv-test', { history: [first, tested('negative', '2026-04-08')], observations: [exposed] });
    expect(early.past('2026-04-20').at(-1)).toMatchObject({
      status: 'not-valid',
      reason: 'too-soon',
      validFrom: '2026-04-09',
    });
    expect(early.on('2026-04-20').status).toBe('overdue');
    const right = ask('felv-test', { history: [first, tested('negative', '2026-04-09')], observations: [exposed] });
    expect(right.on('2026-04-20')).toMatchObject({ status: 'complete', due: null });
  });

  it('starts anew with a new exposure, and stops when it was none', () => {
    const history = [first, tested('negative', '2026-04-09')];
    const again = ask('felv-test', { history, observations: [exposed, seen('felv-exposed', '2026-05-01')] });
    expect(statuses(again, '2026-05-30', '2026-05-31')).toEqual(['complete', 'due']);
    const none = [exposed, seen('felv-exposed', '2026-03-20', { state: 'absent' })];
    expect(ask('felv-test', { history: [first], observations: none }).on('2026-04-20')).toMatchObject({
      status: 'complete',
      due: null,
    });
  });

  it('a test that nobody called for is extra, and a reactive cat is not tested again on its own', () => {
    const uncalled = ask('felv-test', { history: [first, tested('negative', '2026-03-01')] });
    expect(uncalled.past('2026-03-02').map((one) => one.status)).toEqual(['valid', 'extra']);
    const reactive = ask('felv-test', { history: [tested('reactive', '2026-02-10')], observations: [exposed] });
    expect(reactive.on('2026-04-09')).toMatchObject({
      status: 'to-confirm',
      because: { say: 'due.reactive.confirm' },
    });
  });

  test.each([
    ['thirty-days', '2026-04-09'],
    ['ninety-days', '2026-06-08'],
  ])('of FeLV is %s', (option, on) => {
    const of = ask('felv-test', { history: [first], observations: [exposed] }, starterWith({ 'felv-retest': option }));
    expect(statuses(of, dayBefore(on), on, dayAfter(on))).toEqual(['complete', 'due', 'overdue']);
  });

  it('of FIV is 60 days', () => {
    const about = {
      history: [tested('negative', '2026-02-10', 'fiv-test')],
      observations: [seen('fiv-at-risk', '2026-02-10'), seen('fiv-exposed', '2026-03-10')],
    };
    expect(statuses(ask('fiv-test', about), '2026-05-08', '2026-05-09', '2026-05-10')).toEqual([
      'complete',
      'due',
      'overdue',
    ]);
  });

  it('that runs keeps the FeLV vaccine waiting, Verifies: PROT-R13', () => {
    const about = { history: [first], observations: [seen('felv-at-risk', '2026-03-01'), exposed] };
    expect(ask('felv-vaccine', about).on('2026-03-09').hold).toBeNull();
    expect(ask('felv-vaccine', about).on('2026-03-10').hold?.code).toBe('needs-first');
  });
});

describe('FIV in kittens, Verifies: PROT-R34', () => {
  const risk = seen('fiv-at-risk', '2026-02-01');
  const reactive = (on: string) => ({ observations: [risk], history: [tested('reactive', on, 'fiv-test')] });

  test.each([
    ['six-months', '2026-07-01'],
    ['four-months', '2026-05-01'],
  ])('a reactive test is repeated at %s', (option, on) => {
    const of = ask('fiv-test', reactive('2026-02-10'), starterWith({ 'fiv-young-reactive': option }));
    expect(statuses(of, dayBefore(on), on)).toEqual(['to-confirm', 'due']);
    expect(of.on(dayBefore(on)).due).toBe(on);
    const old = ask('fiv-test', reactive(on), starterWith({ 'fiv-young-reactive': option })).on(on);
    expect(old.status).toBe('to-confirm');
  });

  it('or every 60 days until 6 months', () => {
    const often = starterWith({ 'fiv-young-reactive': 'every-sixty-days' });
    expect(ask('fiv-test', reactive('2026-02-10'), often).on('2026-03-01').due).toBe('2026-04-11');
  });

  it('a negative one is not', () => {
    const about = { observations: [risk], history: [tested('negative', '2026-02-10', 'fiv-test')] };
    expect(ask('fiv-test', about).on('2026-07-01').status).toBe('complete');
  });

  it('is for cats at risk, or for all', () => {
    expect(ask('fiv-test').on('2026-02-10').status).toBe('not-recommended');
    expect(ask('fiv-test', {}, starterWith({ 'fiv-screening': 'all' })).on('2026-02-10').status).toBe('overdue');
    expect(ask('felv-test', {}, starterWith({ 'felv-screening': 'at-risk' })).on('2026-02-10').status).toBe(
      'not-recommended',
    );
  });
});
