import { type Instance, stepName } from '../../src/core/route-plan/model/instance.js';
import { type Plan, planSection } from '../../src/core/route-plan/search/search.js';
import { byHand } from '../../test/support/by-hand/people.js';
import { checkPlan } from '../../test/support/plan-checker.js';
import { type Family, madeSection } from '../../test/support/plan-families.js';
import { cpuNow, figure, largest, mean, median, percent, type Report, within } from '../report.js';
import type { Yardstick } from '../yardstick.js';
import { fetching } from './settings.js';

const sizes: readonly (readonly [Family, number])[] = [
  ...[4, 6, 8, 12, 16, 24].map((tests) => ['mixed', tests] as const),
  ...[4, 6, 8, 12, 24].map((tests) => ['alltest', tests] as const),
  ['now', 6],
  ['now', 12],
  ['limit2', 8],
  ['warm', 8],
  ['exact', 8],
  ['wide', 8],
  ['split', 6],
  ['split', 8],
];
const seeds = 8;
/** CPU milliseconds for one plan. */
const stop = 2000;
/** Largest gaps to the printed bounds, in the mean of a size. */
const gaps: Readonly<Record<string, number>> = {
  'alltest 6': 0.065,
  'alltest 8': 0.05,
  'alltest 12': 0.035,
  'alltest 24': 0.015,
};

interface Seen {
  readonly plan: Plan;
  readonly firstMs: number;
  readonly bestMs: number;
  readonly end300: number;
}

/** Plan one section and check the plan, outside of the time taken. */
export function timed(section: Instance, rho: number): Seen {
  const start = cpuNow();
  const found: { ms: number; end: number }[] = [];
  const plan = planSection(section, {
    rho,
    keepGoing: within(stop),
    onBetter: ({ end }) => found.push({ ms: cpuNow() - start, end }),
  });
  if (plan === null) throw new Error(`no plan for ${section.id}`);
  const schedule = plan.steps.map((step) => ({ op: stepName(step), start: step.start, duration: step.duration }));
  const { faults, end } = checkPlan(section, schedule);
  if (faults.length > 0 || end !== plan.end) throw new Error(`${section.id}: ${faults.join('; ')}`);
  const end300 = found.filter((one) => one.ms <= 300).at(-1)?.end ?? Number.POSITIVE_INFINITY;
  const best = found.find((one) => one.end === plan.end);
  return { plan, firstMs: found[0]?.ms ?? 0, bestMs: best?.ms ?? 0, end300 };
}

/** Bounds as printed with the check values, without our own by order: so that gaps can be compared. */
const printedBound = ({ bounds }: Plan): number =>
  Math.max(bounds.work, bounds.tail, bounds.fill, bounds.limit, bounds.kits);

export function families(report: Report, yardstick: Yardstick): void {
  report.heading('### Families, against bounds and people');
  report.line(
    `${seeds} sections a line, seeds 20000 + 100 tests + r. Gap: the plan above the bounds printed with the check values, and above our own bound. People have the lengths as planned; \`×\` is their end over the plan's. Safe: planned so that every step may take twice its time.`,
  );
  const rows: string[][] = [];
  const all: { careful: number; waits: number; spread: number; byCareful: number }[] = [];
  const mixedGaps: number[] = [];
  const firsts: number[] = [];
  for (const [family, tests] of sizes) {
    const sections = Array.from({ length: seeds }, (_, r) => madeSection(family, tests, 20_000 + 100 * tests + r));
    const seen = sections.map((section) => ({ section, nominal: timed(section, 1), safe: timed(section, 2) }));
    const gap = seen.map(({ nominal: { plan } }) => plan.end / printedBound(plan) - 1);
    const people = seen.map(({ section, nominal: { plan } }) => {
      const [careful, answers, waits] = (['careful', 'answers-timers', 'waits-for-each'] as const).map((who) =>
        byHand(section, who),
      );
      if (careful === undefined || answers === undefined || waits === undefined) throw new Error('somebody is missing');
      return {
        careful: careful.end / plan.end,
        answers: answers.end / plan.end,
        waits: waits.end / plan.end,
        missed: answers.missed / tests,
        spread: plan.spread,
        byCareful: careful.spread,
        feasible: careful.feasible,
      };
    });
    const name = `${family} ${tests}`;
    const most = gaps[name];
    if (most !== undefined) report.goal(`${name}: mean gap to the printed bounds`, mean(gap), most);
    if (family === 'mixed' && tests >= 8) mixedGaps.push(...gap);
    if (family !== 'split') {
      report.goal(
        `${name}: plan over careful person, worst`,
        largest(people.map((one) => (one.feasible ? 1 / one.careful : 0))),
        1,
      );
    }
    if (['mixed', 'alltest'].includes(family)) all.push(...people.filter(() => tests <= 12));
    if (tests <= 12 && family !== 'split') {
      report.goal(
        `${name}: end after 300 ms over final end, worst`,
        largest(seen.flatMap(({ nominal, safe }) => [nominal, safe]).map((one) => one.end300 / one.plan.end)),
        1.01,
      );
    }
    if (name === 'mixed 12') firsts.push(...seen.flatMap(({ nominal, safe }) => [nominal.firstMs, safe.firstMs]));
    const plans = seen.map((one) => one.nominal.plan);
    rows.push([
      family,
      String(tests),
      figure(mean(sections.map((s) => s.litters.flatMap((l) => l.animals).length)), 1),
      figure(mean(plans.map((plan) => plan.end)) / 2, 1),
      `${percent(mean(gap))} (${percent(largest(gap))})`,
      percent(mean(plans.map((plan) => plan.end / plan.bounds.best - 1))),
      String(plans.filter((plan) => plan.shortest).length),
      figure(largest(seen.map((one) => one.nominal.firstMs)), 0),
      `${figure(median(seen.map((one) => one.nominal.bestMs)), 0)} (${figure(largest(seen.map((one) => one.nominal.bestMs)), 0)})`,
      figure(mean(people.map((one) => one.careful))),
      `${figure(mean(people.map((one) => one.answers)))}, ${percent(mean(people.map((one) => one.missed)), 0)}`,
      figure(mean(people.map((one) => one.waits)), 2),
      `${figure(mean(people.map((one) => one.spread)) / 2, 1)} / ${figure(mean(people.map((one) => one.byCareful)) / 2, 1)}`,
      percent(mean(seen.map(({ nominal, safe }) => safe.plan.end / nominal.plan.end - 1))),
    ]);
  }
  report.table(
    [
      'family',
      'tests',
      'animals',
      'plan, min',
      'gap mean (max)',
      'gap, own bound',
      'proven shortest',
      'first plan ms, max',
      'best plan ms, median (max)',
      'careful ×',
      'answers timers ×, missed',
      'waits for each ×',
      'kept waiting, min, plan / careful',
      'safe costs',
    ],
    rows,
  );
  report.goal('mixed, 8 to 24 tests: mean gap', mean(mixedGaps), 0.001);
  report.goal('mixed, 8 to 24 tests: largest gap', largest(mixedGaps), 0.01);
  report.goal('1 / (careful over plan), mean of 4 to 12 tests', 1 / mean(all.map((one) => one.careful)), 1 / 1.035);
  report.goal('1 / (waits for each over plan), mean of 4 to 12 tests', 1 / mean(all.map((one) => one.waits)), 1 / 1.57);
  report.goal(
    'kept waiting, plan over careful, 4 to 12 tests',
    mean(all.map((one) => one.spread)) / mean(all.map((one) => one.byCareful)),
    0.5,
  );
  yardstick.again();
  const first = largest(firsts) / yardstick.ms();
  report.goal('first valid plan at 12 tests and 18 animals, worst over the yardstick', first, 13);
  withFetching(report, yardstick);
}

/** The same sections with a holder who fetches beside the treater, against our own bound and the team as one. */
function withFetching(report: Report, yardstick: Yardstick): void {
  report.heading('### The same with a holder who fetches');
  report.line(
    'Gap: the plan above our own bound, which counts the ways of the one holder. Safe: planned so that every step and every way may take twice its time. End: over that of the team as one.',
  );
  const rows: string[][] = [];
  for (const [family, tests] of [
    ['mixed', 8],
    ['mixed', 12],
    ['limit2', 8],
    ['alltest', 8],
    ['alltest', 12],
  ] as const) {
    const sections = Array.from({ length: seeds }, (_, r) => madeSection(family, tests, 20_000 + 100 * tests + r));
    const seen = sections.map((section) => ({
      asOne: timed(section, 2).plan.end,
      nominal: timed(fetching(section), 1),
      safe: timed(fetching(section), 2),
    }));
    const gap = (plans: readonly Plan[]): string => {
      const each = plans.map((plan) => plan.end / plan.bounds.best - 1);
      return `${percent(mean(each))} (${percent(largest(each))})`;
    };
    const both = seen.flatMap(({ nominal, safe }) => [nominal, safe]);
    const [first, late] = [
      largest(both.map((one) => one.firstMs)),
      largest(both.map((one) => one.end300 / one.plan.end)),
    ];
    rows.push([
      family,
      String(tests),
      gap(seen.map((one) => one.nominal.plan)),
      gap(seen.map((one) => one.safe.plan)),
      String(seen.filter((one) => one.nominal.plan.shortest).length),
      figure(mean(seen.map((one) => one.safe.plan.end / one.asOne))),
      figure(first, 0),
    ]);
    report.goal(`${family} ${tests}, the holder fetching: end after 300 ms over final end, worst`, late, 1.01);
    if (tests !== 12) continue;
    const name = `${family} ${tests}, the holder fetching: first valid plan, worst over the yardstick`;
    report.goal(name, first / yardstick.ms(), 13);
  }
  report.table(
    ['family', 'tests', 'gap mean (max)', 'safe: gap', 'proven shortest', 'safe: end ×', 'first plan ms, max'],
    rows,
  );
}
