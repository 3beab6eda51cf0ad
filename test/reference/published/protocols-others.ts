import type { Asks, Question } from './ask.js';
import { found } from './product.js';
import {
  after,
  before,
  between,
  isDue,
  onlyFor,
  optionFor,
  small,
  spanOf,
  starter,
  starterDays,
  worth,
} from './treatments.js';

const worm = 'roundworm';
const inMonths = (arrived: string, months: number) => ({ born: after(arrived, { months: -months }), arrived });
const moved: Question = (given) => ({ result: after(given('date'), spanOf(given('op'))) });
const judged = (
  previous: readonly string[],
  dates: readonly string[],
  at: (done: string[]) => ReturnType<typeof small>,
) =>
  dates.map((date) =>
    at([...previous, date])
      .past(date)
      .map(worth)
      .at(-1),
  );

export const others: Asks = {
  'DEW-01': (given) => {
    const born = given('dob');
    const days = starterDays(worm, { born }, 5, { 'roundworm-two-weekly': 'nine-weeks' });
    // The last of them is the day from which the next comes a month later.
    const last = days.findIndex((one, at) => between(one, days[at + 1] ?? one) !== 14);
    const biweekly = days.slice(0, last + 1);
    return { biweekly, ages: biweekly.map((one) => `${between(born, one) / 7}w`), monthlyFrom: days[last] };
  },
  'DEW-03': (given) => {
    const born = given('dob');
    const choices = { 'roundworm-two-weekly': 'nine-weeks', 'roundworm-later': 'monthly-to-six-months' };
    const days = starterDays(worm, { born }, 12, choices);
    const { latest } = starter(worm, { born, done: days.slice(0, -1) }, choices).on(days.at(-1) ?? born);
    return { stopMonthlyAt: after(found(latest, 'last day'), { days: 1 }) };
  },
  'DEW-04': (given) => {
    const born = given('dob');
    const choices = { 'roundworm-two-weekly': 'nine-weeks', 'roundworm-later': 'four-weekly-to-24-weeks' };
    const days = starterDays(worm, { born }, 12, choices);
    const step = (at: number): number => (at === 0 ? 14 : between(days[at - 1] ?? '', days[at] ?? ''));
    const tape = starter('tapeworm', { born }, { 'tapeworm-when': 'from-twelve-weeks' }).on(born);
    return {
      biweekly: days.filter((_, at) => step(at) === 14),
      fourWeekly: days.filter((_, at) => step(at) === 28),
      tapewormFrom: tape.due,
    };
  },
  'DEW-05': (given) => ({
    doses: starterDays(worm, inMonths(given('intake'), given.number('ageMonths')), 3),
  }),
  'DEW-10': (given) => {
    const first = (option: string) =>
      starter(worm, { born: given('dob'), arrived: given('intake') }, { 'roundworm-youngest': option }).on(
        given('intake'),
      ).due;
    return { ruleCAPC: first('three-weeks'), ruleShelterTable: first('two-weeks') };
  },
  'DEW-12': (given) => {
    onlyFor(given('signs'), 'none');
    const on = '2026-09-01';
    const cat = inMonths(on, given.number('ageMonths'));
    return { routineCoccidiaTreatment: isDue(starter('coccidia', cat, { 'coccidia-when': 'at-intake' }).on(on)) };
  },
  'FLE-01': (given) => {
    const on = '2026-03-01';
    const cat = { born: before(on, 7 * given.number('ageWeeks')), done: [on] };
    const { due } = starter('flea', cat, { 'flea-again': 'every-month' }).on(on);
    return { monthly: due === after(on, { months: 1 }) };
  },
  'FLE-02': (given) => {
    const last = given('last');
    const next = (option: string) =>
      starter('flea', { born: before(last, 120), done: [last] }, { 'flea-again': option }).on(last).due;
    return { plus30days: next('every-30-days'), plus1month: next('every-month') };
  },
  'MIT-03': (given) => {
    const first = given('first');
    const cat = {
      born: before(first, 120),
      seen: [{ code: 'ear-mites', on: first }],
      done: [{ on: first, product: 'ear-mite' }],
    };
    return { repeat: starter('ear-mite', cat, { 'ear-mite-second': 'after-four-weeks' }).on(first).due };
  },
  'RGW-01': (given) => {
    const on = '2026-04-01';
    const item = starter('ringworm-lamp', inMonths(on, given.number('ageMonths'))).on(on);
    return { woodsLampAtIntake: isDue(item) && item.due === on };
  },
  'TST-02': (given) => {
    const on = given('testDate');
    const result = optionFor(given('fiv'), { positive: 'reactive' }) as 'reactive';
    const cat = { born: given('dob'), done: [{ on, result }], seen: [{ code: 'fiv-at-risk', on }] };
    const item = starter('fiv-test', cat).on(on);
    return { status: item.status === 'to-confirm' ? 'undetermined' : item.status, retest: item.due };
  },
  'TST-03': (given) => {
    const on = '2026-03-12';
    const result = optionFor(given('fiv'), { negative: 'negative' }) as 'negative';
    const born = before(on, 7 * given.number('ageWeeks'));
    const item = starter('fiv-test', { born, done: [{ on, result }], seen: [{ code: 'fiv-at-risk', on }] }).on(on);
    return { reliable: item.status === 'complete' && item.due === null };
  },
  'TST-04': (given) => {
    const [born, first] = [given('dob'), given('positiveOn')];
    const after60 = (days: readonly string[]) =>
      starter(
        'fiv-test',
        {
          born,
          done: days.map((on) => ({ on, result: 'reactive' as const })),
          seen: [{ code: 'fiv-at-risk', on: first }],
        },
        { 'fiv-young-reactive': 'every-sixty-days' },
      ).on(days.at(-1) ?? first).due;
    const second = found(after60([first]), 'day');
    return { retests: [second, after60([first, second])] };
  },
  'TST-05': (given) => {
    const on = given('exposure');
    const retest = (of: 'felv' | 'fiv') => {
      const [tested, risk] = [before(on, 30), { code: `${of}-at-risk`, on: before(on, 30) }];
      const cat = {
        born: before(on, 300),
        done: [{ on: tested, result: 'negative' as const }],
        seen: [risk, { code: `${of}-exposed`, on }],
      };
      return starter(`${of}-test`, cat).on(on).due;
    };
    return { felvRetest: retest('felv'), fivRetest: retest('fiv') };
  },
  'TST-06': (given) => {
    const on = given('exposure');
    const cat = { born: before(on, 300), done: [before(on, 30)], seen: [{ code: 'felv-exposed', on }] };
    return { finalRetest: starter('felv-test', cat, { 'felv-retest': 'ninety-days' }).on(on).due };
  },
  ...Object.fromEntries(Array.from({ length: 9 }, (_, at): [string, Question] => [`CDS-0${at + 1}`, moved])),
  'CDS-10': (given) => ({ byRuleText: after(given('date'), spanOf(given('op'))) }),
  'CDS-11': (given) => {
    const age = { absMin: spanOf(given('absMinAge')), min: spanOf(given('minAge')) };
    return { results: judged([], given.list('dates'), (done) => small({ born: given('dob'), done }, [{ age }])) };
  },
  'CDS-12': (given) => {
    const previous = given('previous');
    const targets = [{}, { intervals: [{ absMin: { days: 24 }, min: { days: 28 } }] }];
    return {
      results: judged([previous], given.list('dates'), (done) => small({ born: before(previous, 700), done }, targets)),
    };
  },
  'CDS-13': (given) => {
    const targets = [{ age: { min: { weeks: 6 }, max: spanOf(given('maxAge')) } }];
    return { result: judged([], [given('date')], (done) => small({ born: given('dob'), done }, targets))[0] };
  },
  'CDS-14': (given) => {
    const other = given('other');
    const apart = [{ class: 'other', begins: { days: 1 }, ends: { days: 28 } }];
    return {
      conflict: given.list('dates').map((on) => {
        const animal = { born: before(other, 400), done: [{ on: other, product: 'other' }, on] };
        const worths = small(animal, [{}], { apart }).past(on);
        return worths.some((one) => one.reason === 'too-near-other-product');
      }),
    };
  },
  'CDS-15': (given) => {
    const last = given('lastDose');
    const born = before(given('minAgeDate'), 28);
    const intervals = given.list('minIntervalDates').map((date) => ({ min: { days: between(last, date) } }));
    const other = before(given('conflictEnd'), 28);
    const item = small(
      { born, done: [last, { on: other, product: 'other' }] },
      [{}, { age: { min: { days: 28 } }, intervals }],
      { apart: [{ class: 'other', begins: { days: 5 }, ends: { days: 28 } }] },
    ).on(last);
    return { earliest: item.earliest };
  },
  'CDS-17': (given) => {
    const born = before(given('earliest'), 47);
    const age = { min: { days: 47 }, late: { days: between(born, given('latestRecommendedAgeDate')) } };
    return { adjustedPastDue: small({ born }, [{ age }]).on(born).overdueAfter };
  },
  'CDS-19': (given) => {
    let on = '2026-01-01';
    const done = given.list('doses').map((worthy, at) => {
      if (at > 0) on = after(on, { days: worthy === 'valid' ? 28 : 9 });
      return on;
    });
    const asked = small({ born: before(done[0] ?? on, 300), done }, [
      { repeats: {}, intervals: [{ min: { days: 28 } }] },
    ]);
    const worths = asked.past(on).map(({ status }) => status.replace('-', ' '));
    onlyFor(worths.join(), given.list('doses').join());
    return { forecastNumber: asked.on(on).dose };
  },
  'CDS-21': (given) => {
    const doses = given.list('doses').map((one) => JSON.parse(one) as [string, string]);
    const done = doses.map(([on]) => on);
    const on = done.at(-1) ?? '';
    const targets = [{ repeats: {}, intervals: [{ min: { days: given.number('minInterval') } }] }];
    const asked = small({ born: before(on, 400), done }, targets);
    onlyFor(
      asked
        .past(on)
        .map(({ status }) => status.replace('-', ' '))
        .join(),
      doses.map(([, is]) => is).join(),
    );
    return { earliestNext: asked.on(on).earliest };
  },
  'CDS-22': (given) => {
    const on = '2026-05-01';
    const statuses: Readonly<Record<string, () => string>> = {
      'all satisfied': () => small({ born: before(on, 300), done: [before(on, 30)] }, [{}]).on(on).status,
      contraindicated: () =>
        starter('core-vaccine', {
          ...{ born: before(on, 400), arrived: on, sex: 'female' as const },
          seen: [{ code: 'pregnant', on: before(on, 2) }],
        }).on(on).status,
      'assessment on or after maximum age': () =>
        small({ born: before(on, 105) }, [{ age: { min: { weeks: 6 }, max: { weeks: 15 } } }]).on(on).status,
    };
    return { status: given.list('cases').map((one) => statuses[one]?.() ?? null) };
  },
  'CDS-23': (given) => {
    onlyFor(given('contraindication'), 'unknown');
    const on = '2026-03-01';
    const queen = { born: before(on, 420), arrived: on, sex: 'female' as const, neutered: 'no' as const };
    const item = starter('core-vaccine', queen).on(on);
    return { applied: item.hold !== null, showText: (item.asks?.length ?? 0) > 0 };
  },
  'CDS-25': (given) => {
    const [born, first] = [given('dob'), given('dose1')];
    const item = small({ born, done: [first] }, [{}, { intervals: [{ min: { days: 28 } }] }]).on(first);
    return { forecastNo: item.dose, earliest: item.earliest, recommended: item.due };
  },
};
