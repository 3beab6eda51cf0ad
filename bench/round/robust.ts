import type { Instance, Step } from '../../src/core/route-plan/model/instance.js';
import { planSection } from '../../src/core/route-plan/search/search.js';
import { type Acting, byOrder, byPlanning } from '../../test/support/by-hand/acting.js';
import { byHand } from '../../test/support/by-hand/people.js';
import { type Simulated, simulate } from '../../test/support/by-hand/simulate.js';
import { type Family, madeSection } from '../../test/support/plan-families.js';
import { luckFrom, type Odds, usualOdds } from '../../test/support/plan-luck.js';
import { usuallyTaking } from '../../test/support/usually-taking.js';
import { figure, mean, percent, type Report, within } from '../report.js';
import { fetching } from './settings.js';

const sections = 10;
/** Units of 5 seconds, so that lengths of 0.7 to 2 times are not rounded away. */
const finer = 6;
/** Mean of the lengths on 0.7, 1 and 2. */
const usual = 3.7 / 3;
const worst = 2;
const firstWidth = 8;
const sizes: readonly (readonly [Family, number, number])[] = [
  ['mixed', 4, 1.1],
  ['mixed', 8, 1.1],
  ['alltest', 6, 1.13],
];

interface Story {
  readonly name: string;
  readonly odds: Odds;
  readonly canWait: boolean;
  readonly draws: number;
}

const stories: readonly Story[] = [
  { name: 'Lengths vary', odds: { failedDraws: 0, interruptionsPerMinute: 0 }, canWait: true, draws: 100 },
  {
    name: 'Lengths vary, draws fail, people are interrupted and can say "in a moment"',
    odds: usualOdds,
    canWait: true,
    draws: 100,
  },
  { name: 'The same, but no interruption can be put off', odds: usualOdds, canWait: false, draws: 100 },
];

const quick = () => ({ keepGoing: within(300) });
const withoutReadings = (steps: readonly Step[]): Step[] => steps.filter((step) => step.is !== 'reading');

interface Way {
  readonly acting: () => Acting;
  /** The section with people as this way has them. */
  readonly section: Instance;
}

/** Ways of working, each made anew for every round. */
function ways(section: Instance, coarse: Instance): Record<string, Way> {
  const steps = (rho: number, of = section, reserve = 0): readonly Step[] => {
    const plan = planSection(of, { rho, reserve, ...quick() });
    if (plan === null) throw new Error(`no plan for ${of.id}`);
    return plan.steps;
  };
  const typical = usuallyTaking(coarse, usual, finer);
  const sheet = withoutReadings(byHand(section, 'careful').steps);
  const [asPlanned, safe, usually] = [steps(1), steps(worst), steps(worst / usual, typical)];
  const reserve = 180 / section.unitSeconds;
  const reserved = steps(worst / usual, typical, reserve);
  const planning = { firstWidth, keepGoing: () => false };
  const typicalApart = usuallyTaking(fetching(coarse), usual, finer);
  const withFetching = steps(worst / usual, typicalApart);
  const together: Record<string, () => Acting> = {
    'sheet, answers timers': () => byOrder(section, sheet, { lookAhead: 0 }),
    'sheet, looks ahead, lengths as planned': () => byOrder(section, sheet, { lookAhead: 1 }),
    'sheet, looks ahead, twice the lengths': () => byOrder(section, sheet, { lookAhead: 2 }),
    'shortest plan, followed strictly': () => byOrder(section, asPlanned, { lookAhead: 0, strict: true }),
    'shortest plan, answers timers': () => byOrder(section, withoutReadings(asPlanned), { lookAhead: 0 }),
    'shortest plan, looks ahead twice': () => byOrder(section, withoutReadings(asPlanned), { lookAhead: 2 }),
    'safe plan, looks ahead 1.5 times': () => byOrder(section, withoutReadings(safe), { lookAhead: 1.5 }),
    'safe plan, looks ahead twice': () => byOrder(section, withoutReadings(safe), { lookAhead: 2 }),
    'safe plan, planned anew after each step': () => byPlanning(section, safe, { ...planning, rho: worst }),
    '**the same, with what steps usually take**': () =>
      byPlanning(typical, usually, { ...planning, rho: worst / usual }),
    'the same, 3 minutes kept for an interruption': () =>
      byPlanning(typical, reserved, { ...planning, rho: worst / usual, reserve }),
  };
  return {
    ...Object.fromEntries(Object.entries(together).map(([name, acting]) => [name, { acting, section }])),
    '**the same, and the holder fetches**': {
      acting: () => byPlanning(typicalApart, withFetching, { ...planning, rho: worst / usual }),
      section: fetching(section),
    },
  };
}

export function robust(report: Report): void {
  report.heading('### When steps take 0.7 to 2 times as long as planned');
  report.line(
    `Lengths are triangular on 0.7, 1 and 2 times the plan (mean 1.23), readings fixed; ${sections} sections a family (seeds 20000 + 100 tests + r) and 100 rounds each, the same luck for every way of working. One draw in ten gives no blood (assumption), tried twice; an interruption of 2 to 3 minutes comes once in 20 minutes of work. Missed: readings outside their window. Length: end over all that was really done, a holder\u2019s ways beside the treater included; so it may be below 1 where he fetches.`,
  );
  for (const story of stories) {
    const rows = new Map<string, string[]>();
    for (const [family, tests, most] of sizes) {
      const seen = new Map<string, Simulated[]>();
      for (let r = 0; r < sections; r += 1) {
        const coarse = madeSection(family, tests, 20_000 + 100 * tests + r);
        const section = usuallyTaking(coarse, 1, finer);
        for (const [name, way] of Object.entries(ways(section, coarse))) {
          const own = seen.get(name) ?? [];
          seen.set(name, own);
          for (let draw = 0; draw < story.draws; draw += 1) {
            const luck = luckFrom(1000 * r + draw, section.unitSeconds, story.odds);
            own.push(simulate(way.section, way.acting(), luck, { canWait: story.canWait, attempts: 2 }));
          }
        }
      }
      for (const [name, own] of seen) {
        const sum = (pick: (one: Simulated) => number): number => own.reduce((total, one) => total + pick(one), 0);
        const [missed, readings] = [sum((one) => one.missed), sum((one) => one.readings)];
        const length = mean(own.map((one) => one.end / one.work));
        rows.set(name, [
          ...(rows.get(name) ?? [name]),
          missed === 0 ? `0 of ${readings}` : percent(missed / readings, 1),
          figure(length),
        ]);
        if (name.startsWith('**') && story.canWait) {
          report.goal(
            `${family} ${tests}, ${story.name.slice(0, 40)}: readings missed in ${own.length} rounds${name.includes('holder') ? ', the holder fetching' : ''}`,
            missed,
            0,
          );
          if (!name.includes('holder'))
            report.goal(`${family} ${tests}, ${story.name.slice(0, 40)}: length over work`, length, most);
        }
      }
    }
    report.heading(`#### ${story.name}`);
    report.table(
      ['way of working', ...sizes.flatMap(([family, tests]) => [`${family} ${tests}: missed`, 'length'])],
      [...rows.values()],
    );
  }
}
