import type { Asks, Given } from './ask.js';
import { after, before, between, isDue, onlyFor, small, smallDays, starter } from './treatments.js';

/** A treatment that is due every so often: one that was late is counted from the day on which it was really given. */
const monthly = (given: Given) => {
  const [due, late] = [given('due'), given('given')];
  const first = before(due, 30);
  const item = starter(
    'flea',
    { born: before(first, 420), arrived: first, done: [first, late] },
    { 'flea-again': 'every-month' },
  ).on(late);
  return { next: item.due };
};
/** How many doses a series asks for when every one is given on its day, and how far apart they are, in weeks or months. */
const apart = (from: string, to: string | undefined, unit: number): number =>
  Math.round(between(from, to ?? from) / unit);

/** Series after a gap, returns and boosters, by the starter protocol or by the rule of the source as a small protocol. */
export const returns: Asks = {
  'RET-01': (given) => {
    const last = given('lastDose');
    const rule = [{}, { intervals: [{ min: { weeks: 2 }, late: { weeks: 6, days: 1 } }] }];
    const of = small({ born: before(last, 60), done: [last] }, rule);
    return { overdue: given.list('back').map((on) => of.on(on).status === 'overdue') };
  },
  'RET-02': (given) => {
    onlyFor(given('type'), 'attenuated');
    const back = '2026-03-01';
    const born = before(back, 7 * given.number('ageWeeks'));
    const last = after(back, { years: -given.number('yearsSince') });
    // Old enough at the last dose that the queen's antibody was gone: two doses, two weeks apart, then the years.
    const done = [after(last, { weeks: -2 }), last];
    const of = (doses: readonly string[], on: string) =>
      starter('core-vaccine', { born, arrived: done[0] ?? last, done: doses }).on(on);
    let doses = 0;
    let history: readonly string[] = done;
    while (doses < 9 && isDue(of(history, after(back, { weeks: 3 * doses })))) {
      history = [...history, after(back, { weeks: 3 * doses })];
      doses += 1;
    }
    return { doses: String(doses) };
  },
  'RET-05': (given) => {
    const arrived = '2026-03-01';
    onlyFor(given('previous'), '0');
    const cat = { born: before(arrived, 7 * given.number('ageWeeks')), arrived };
    const rule = [
      { on: 'arrival' as const },
      { on: 'arrival' as const, intervals: [{ min: { weeks: 3 }, late: { weeks: 4, days: 1 } }] },
    ];
    const doses = smallDays(cat, rule, 9);
    const { earliest, overdueAfter } = small({ ...cat, done: doses.slice(0, 1) }, rule).on(arrived);
    return {
      doses: String(doses.length),
      apartWeeks: [earliest, overdueAfter].map((on) => String(apart(arrived, on ?? undefined, 7))),
    };
  },
  'RET-06': (given) => {
    const first = '2026-03-01';
    const now = after(first, { days: given.number('gapDays') });
    const of = (weeks: number) =>
      small({ born: before(first, 70), done: [first] }, [
        {},
        { intervals: [{ min: { weeks: 2 } }], restartAfter: { weeks } },
      ]).on(now).dose === 1
        ? 'restart'
        : 'continue';
    return { clinic: of(4), ford: of(6) };
  },
  'RET-07': (given) => {
    const on = '2026-03-01';
    onlyFor(given('previous'), '0');
    const born = before(on, 7 * given.number('ageWeeks'));
    const of = (done: readonly string[], when: string) => starter('rabies', { born, arrived: on, done }).on(when);
    const second = of([on], on).due ?? on;
    const doses = [[], [on]].filter((done, at) => isDue(of(done, at === 0 ? on : second))).length;
    return { doses: String(doses), apartMonths: String(apart(on, second, 30.4)) };
  },
  'RET-11': monthly,
  'CLASS-14': monthly,
  'RET-12': (given) => {
    onlyFor(given('fivPositive'), 'true');
    const on = '2026-03-01';
    const past = { on: before(on, 1), result: 'reactive' as const, of: 'fiv-test' };
    const item = starter(
      'core-vaccine',
      { born: before(on, 420), arrived: before(on, 2), done: [past] },
      { 'core-vaccine-felv-reactive': 'veterinarian-decides' },
    ).on(on);
    return { auto: isDue(item), ask: item.hold?.code === 'fiv-reactive' };
  },
};
