import type { Asks, Given, Question } from './ask.js';
import { found } from './product.js';
import {
  after,
  before,
  between,
  type Choices,
  isDue,
  onlyFor,
  optionFor,
  small,
  smallDays,
  starter,
  starterDays,
  windowOf,
  worth,
} from './treatments.js';

const core = 'core-vaccine';
const endAt = (weeks: string): Choices => ({
  'core-vaccine-end': optionFor(weeks, { '16': 'sixteen-weeks', '20': 'twenty-weeks' }),
});
/** A grown cat that came in on a day; the sources speak of adults, or say how old. */
const adult = (arrived: string) => ({ born: before(arrived, 420), arrived });

const series: Question = (given) => {
  const choices = {
    ...endAt(given('endAgeWeeks')),
    'core-vaccine-youngest': optionFor(given('start'), { '4 weeks': 'four-weeks', '2 weeks': 'two-weeks' }),
    'core-vaccine-interval': optionFor(given('intervalDays'), { '14': 'two-weeks' }),
  };
  const doses = starterDays(core, { born: given('dob') }, 12, choices);
  return { doses, count: doses.length };
};
const ofType = (type: string, given: Given): object => {
  onlyFor(given('setting'), 'shelter');
  const on = '2026-03-01';
  const [dose] = starter(core, { ...adult(on), done: [{ on, product: `core-vaccine-${type}` }] }).past(on);
  return { allowedByRule: dose?.status === 'valid' };
};

/** A cat that is at risk of FeLV and was tested before its first vaccine of that. */
const atRisk = (born: string, first: string, doses: readonly string[]) => ({
  born,
  arrived: before(first, 1),
  seen: [{ code: 'felv-at-risk', on: before(first, 1) }],
  done: [
    { on: before(first, 1), result: 'negative' as const, of: 'felv-test' },
    ...doses.map((on) => ({ on, product: 'felv-vaccine' })),
  ],
});
const felvAfter = (first: string, doses: readonly string[], choices: Choices = {}) =>
  starter('felv-vaccine', atRisk(before(first, 420), first, doses), choices);

const threeToFour = [{ min: { weeks: 3 }, late: { weeks: 4, days: 1 } }];
const rabies = (doses: readonly string[], choices: Choices = {}) =>
  starter('rabies', { born: before(doses[0] ?? '', 200), done: doses }, choices);
const protects = (doses: readonly string[], of: string) =>
  rabies(doses, { 'rabies-protects': of })
    .past(doses.at(-1) ?? '')
    .map((one) => one.protectsFrom);

export const vaccines: Asks = {
  'VAX-01': (given) => {
    onlyFor(given('rule'), 'shelter');
    const item = starter(core, { born: given('dob'), arrived: given('intake') }).on(given('intake'));
    return { dose1Earliest: item.earliest };
  },
  'VAX-03': series,
  'VAX-04': series,
  'VAX-06': (given) => {
    const done = [given('lastDose')];
    const item = starter(core, { born: given('dob'), done }, endAt(given('endAgeWeeks'))).on(given('lastDose'));
    return { seriesComplete: item.status === 'complete', nextDue: item.due };
  },
  'VAX-07': (given) => {
    const at = (weeks: string) =>
      starter(core, { born: given('dob'), done: [given('lastDose')] }, endAt(weeks)).on(given('lastDose'));
    return {
      completeAt16: at('16').status === 'complete',
      completeAt20: at('20').status === 'complete',
      nextDueIf20: at('20').due,
    };
  },
  'VAX-08': (given) => {
    onlyFor(given('history'), 'none');
    const born = before(given('intake'), 7 * given.number('ageWeeksAtIntake'));
    const doses = starterDays(core, { born, arrived: given('intake') }, 5);
    return { doses, count: doses.length };
  },
  'VAX-11': (given) => {
    const item = starter(core, { born: given('dob') }).on(given('date'));
    const weeks = between(given('dob'), item.earliest) / 7;
    return { action: item.status === 'not-yet' ? 'hold' : item.status, reason: `under ${weeks} weeks` };
  },
  'VAX-12': (given) => {
    onlyFor(given('pregnant'), 'true');
    onlyFor(given('sex'), 'F');
    const on = '2026-03-01';
    const queen = { ...adult(on), sex: 'female' as const, seen: [{ code: 'pregnant', on: before(on, 4) }] };
    const item = starter(core, queen).on(on);
    return { default: item.hold?.code === 'pregnant' && item.status === 'on-hold' ? 'hold' : item.status };
  },
  'VAX-13': (given) => ofType(given('vaccineType'), given),
  'VAX-14': (given) => ofType(given('route'), given),
  'VAX-15': (given) => {
    const done = given.list('doses');
    const choices = { 'core-vaccine-interval': 'two-to-three-weeks' };
    return { nextWindow: windowOf(starter(core, { born: given('dob'), done }, choices).on(done.at(-1) ?? '')) };
  },
  'VAX-16': (given) => {
    const arrived = given('intake');
    const cat = { born: after(arrived, { years: -given.number('ageYears') }), arrived, done: [arrived] };
    return { dose2Window: windowOf(starter(core, cat, { 'core-vaccine-interval': 'two-to-three-weeks' }).on(arrived)) };
  },
  'VAX-17': (given) => {
    const on = given('intake');
    const cat = { ...adult(on), done: [on] };
    const proof = given.list('proof').length > 0 ? [{ code: 'core-vaccine-proven', on }] : [];
    const choices = {
      'core-vaccine-interval': 'two-to-three-weeks',
      'core-vaccine-second-adult': 'waived-on-proof',
    };
    const proven = starter(core, { ...cat, seen: proof }, choices).on(on);
    return {
      withoutProof: windowOf(starter(core, cat, choices).on(on)),
      withProof: proven.status === 'complete' ? 'no second dose' : proven.status,
    };
  },
  'VAX-18': (given) => {
    onlyFor(given('history'), 'unknown');
    const item = starter(core, adult('2026-03-01')).on('2026-03-01');
    return { treatAs: item.dose === 1 && item.status === 'due' ? 'no valid doses' : item.status };
  },
  'VAX-20': (given) => {
    onlyFor(given('sex'), 'F');
    const on = '2026-03-01';
    const state = (key: string) => (given(key) === 'true' ? ('present' as const) : ('absent' as const));
    const seen = ['nursing', 'pregnant'].map((code) => ({ code, on: before(on, 4), state: state(code) }));
    const item = starter(core, { ...adult(on), sex: 'female', seen }).on(on);
    return { action: item.status === 'due' && item.hold === null ? 'vaccinate' : item.status };
  },
  'VAX-21': series,
  'VAX-22': (given) => {
    const [dose1, dose2] = starterDays(core, { born: given('dob') }, 2, {
      'core-vaccine-interval': 'three-to-four-weeks',
    });
    const [worm1 = '', worm2 = ''] = starterDays('roundworm', { born: given('dob') }, 2);
    return { dose1, dose2, pyrantelEveryDays: between(worm1, worm2) };
  },
  'VAX-23': (given) => {
    onlyFor(given('rule'), 'pet');
    const targets = [
      { age: { min: { weeks: 6 } } },
      { repeats: { until: { weeks: 16 }, ends: 'with-a-dose-at-or-after' as const }, intervals: threeToFour },
    ];
    const born = given('dob');
    const earliest = found(small({ born }, targets).on(born).earliest, 'day');
    return {
      dose1Earliest: earliest,
      ifGivenThatDay_nextWindow: windowOf(small({ born, done: [earliest] }, targets).on(earliest)),
    };
  },
  'VAX-25': (given) => {
    onlyFor(given('vaccineType'), 'inactivated');
    const first = given('firstDose');
    const targets = [{ age: { min: { weeks: 16 } } }, { intervals: threeToFour }];
    return { dose2Window: windowOf(small({ born: before(first, 240), done: [first] }, targets).on(first)) };
  },
  'VAX-26': (given) => {
    const born = given('dob');
    const closed = [18, 20].map((weeks) => after(born, { weeks }));
    const booster = found(starter(core, { born, done: closed }).on(closed[1] ?? born).due, 'booster');
    const next = starter(core, { born, done: [...closed, booster] }).on(booster).due;
    return { boosterAt6Months: booster, thenEveryYears: yearsBetween(booster, next) };
  },
  'VAX-27': (given) => {
    const last = given('lastKittenDose');
    const choices = { 'core-vaccine-booster': 'one-year', ...endAt('16') };
    const born = before(last, 16 * 7);
    const booster = found(starter(core, { born, done: [last] }, choices).on(last).due, 'booster');
    return { booster, next: starter(core, { born, done: [last, booster] }, choices).on(booster).due };
  },
  'VAX-28': (given) => {
    const [weeks, months] = [after(given('dob'), { weeks: 16 }), after(given('dob'), { months: 4 })];
    return { '16weeks': weeks, '4months': months, differenceDays: between(weeks, months) };
  },
  'VAX-31': (given) => {
    const [born, first] = [given('dob'), given('firstDose')];
    const targets = [
      { age: { min: { weeks: 8 } } },
      { intervals: threeToFour },
      { age: { min: { weeks: 16 } }, intervals: [{ min: { weeks: 3 } }] },
    ];
    const window = windowOf(small({ born, done: [first] }, targets).on(first));
    const second = window[0] ?? first;
    const last = small({ born, done: [first, second] }, targets).on(second);
    return { dose2Window: window, finalDoseNoEarlierThan: last.earliest };
  },
  'VAX-33': (given) => {
    const born = given('dob');
    const closes = (on: string): boolean =>
      starter(core, { born, done: [before(on, 15), on] }).on(on).status === 'complete';
    let on = after(born, { weeks: 12 });
    while (!closes(on)) on = after(on, { days: 1 });
    return { lastDoseAtOrAfter: on };
  },
  'VAX-34': (given) => {
    const on = '2026-03-01';
    const result = optionFor(given('felv'), { positive: 'reactive' }) as 'reactive';
    const cat = { ...adult(on), done: [{ on, result, of: 'felv-test' }] };
    const item = starter(core, cat, { 'core-vaccine-felv-reactive': 'veterinarian-decides' }).on(on);
    return { engine: item.hold?.code === 'felv-reactive' ? 'refer to veterinarian' : item.status };
  },
  'GAP-01': (given) => {
    const [doses, now] = [given.list('doses'), given('today')];
    const at = (done: readonly string[], on: string) =>
      starter(core, { born: given('dob'), done }, endAt(given('endAgeWeeks'))).on(on);
    const next = found(at([...doses, now], now).due, 'day');
    return {
      dueNow: isDue(at(doses, now)),
      thenIfGivenToday: next,
      thenAgain: at([...doses, now, next], next).due,
      restart: at(doses, now).dose !== doses.length + 1,
    };
  },
  'GAP-02': (given) => {
    const [first, now] = [given('firstDose'), given('today')];
    const item = felvAfter(first, [first]).on(now);
    let limit = 0;
    while (felvAfter(first, [first]).on(after(first, { days: limit + 1 })).dose === 2) limit += 1;
    return {
      gapDays: between(first, now),
      limitDays: limit,
      restart: item.dose === 1,
      dose1: isDue(item) ? now : item.due,
      dose2Window: windowOf(felvAfter(first, [first, now]).on(now)),
    };
  },
  'GAP-03': (given) => {
    const first = '2025-01-01';
    const later = after(first, { days: given.number('gapDays') });
    return { restart: felvAfter(first, [first], { 'felv-vaccine-lapsed': 'go-on' }).on(later).dose === 1 };
  },
  'GAP-04': (given) => {
    const done = [given('previous'), given('date')];
    const min = { days: given.number('minDays') };
    const graced = (days: number): string | undefined => {
      const interval = days === 0 ? { min } : { absMin: { days: min.days - days }, min };
      const animal = { born: before(given('previous'), 200), done };
      return small(animal, [{}, { intervals: [interval] }])
        .past(given('date'))
        .map(worth)[1];
    };
    return { grace0: graced(0), grace4: graced(4) };
  },
  'RAB-02': (given) => {
    const [weeks, months] = [after(given('dob'), { weeks: 12 }), after(given('dob'), { months: 3 })];
    return { '12weeks': weeks, '3months': months, differenceDays: between(weeks, months) };
  },
  'RAB-04': (given) => ({ booster: rabies([given('firstDose')]).on(given('firstDose')).due }),
  'RAB-05': (given) => ({ immunisedFrom: protects([given('firstDose')], 'twenty-eight-days')[0] }),
  'RAB-06': (given) => {
    const first = given('firstDose');
    const booster = after(first, { years: 1 });
    const [from, again] = protects([first, booster], 'fourteen-days');
    return { from, afterBooster: again === booster ? 'same day' : again };
  },
  'RAB-07': (given) => ({
    currentFrom: protects([given('firstDose')], 'thirty-days')[0],
    requiredBy: starter('rabies', { born: given('dob') }, { 'rabies-youngest': 'three-to-four-months' }).on(
      given('dob'),
    ).overdueAfter,
  }),
  'RAB-08': (given) => {
    onlyFor(given('givenToday'), 'true');
    const [last, now] = [given('lastDose'), given('today')];
    const later = optionFor(given('labelYears'), { '1': 'one-year', '3': 'three-years' });
    const doses = [before(last, 300), last, now];
    return {
      currentFrom: protects(doses, 'twenty-eight-days').at(-1),
      next: rabies(doses, { 'rabies-later': later }).on(now).due,
    };
  },
  'RAB-09': (given) => ({
    '8weeks': starter('rabies', { born: given('dob') }, { 'rabies-youngest': 'eight-weeks' }).on(given('dob')).earliest,
    '2months': after(given('dob'), { months: 2 }),
  }),
  'FVX-02': (given) => {
    const last = given('lastSeriesDose');
    const first = before(last, 28);
    return { booster: felvAfter(first, [first, last]).on(last).due };
  },
  'FVX-03': (given) => {
    const first = given('firstDose');
    return { dose2Window: windowOf(starter('felv-vaccine', atRisk(given('dob'), first, [first])).on(first)) };
  },
  'FVX-04': (given) => {
    const first = given('firstDose');
    return { dose2Window: windowOf(felvAfter(first, [first], { 'felv-vaccine-gap': 'two-to-four-weeks' }).on(first)) };
  },
  'FVX-05': (given) => {
    const [one, two, three] = smallDays(
      { born: given('dob') },
      [
        { age: { min: { weeks: 9 } } },
        { age: { min: { weeks: 12 } }, intervals: [{ min: { weeks: 3 } }] },
        { repeats: {}, intervals: [{ min: { years: 1 } }] },
      ],
      3,
    );
    return { doses: [one, two], firstAnnual: three };
  },
  'FVX-06': (given) => {
    onlyFor(given('felvTested'), 'false');
    const on = '2026-03-01';
    const cat = { ...adult(on), seen: [{ code: 'felv-at-risk', on }] };
    const untested = starter('felv-vaccine', cat).on(on);
    const tested = (result: 'negative' | 'reactive') =>
      starter('felv-vaccine', { ...cat, done: [{ on, result, of: 'felv-test' }] }).on(on);
    const afterTest = isDue(tested('negative')) && !isDue(tested('reactive'));
    return { order: [untested.hold?.code === 'needs-first' ? 'test' : '', afterTest ? 'vaccine if negative' : ''] };
  },
};

function yearsBetween(from: string, to: string | null): number {
  let years = 0;
  while (years < 50 && after(from, { years }) < (to ?? '')) years += 1;
  return years;
}
