import type { Instance } from '../../src/core/route-plan/model/instance.js';
import { planSection } from '../../src/core/route-plan/search/search.js';
import { planTeams } from '../../src/core/route-plan/whole-round/teams.js';
import { type Family, madeSection } from '../../test/support/plan-families.js';
import { figure, mean, type Report, within } from '../report.js';

/** The holder puts back and fetches while only the treater is needed; half of the time both make sure of the animal. */
export const fetching = (section: Instance): Instance => ({
  ...section,
  holders: 1,
  confirm: Math.round(section.fetch / 2),
});

const seeds = 8;
const sizes: readonly (readonly [Family, number])[] = [
  ['mixed', 6],
  ['mixed', 8],
  ['alltest', 6],
  ['alltest', 8],
];

/** What each setting costs: ends and waiting against the freest one, planned with double lengths. */
export function settings(report: Report): void {
  report.heading('### What the settings cost');
  report.line(
    `Mean end and mean time animals are kept waiting (minutes), planned so that every step may take twice its time, ${seeds} sections each; end over that with any number of tests at once, blood waiting 10 min, no putting back.`,
  );
  const change = (section: Instance, test: Partial<Instance['test']>): Instance => ({
    ...section,
    test: { ...section.test, ...test },
  });
  const variants: readonly (readonly [string, (section: Instance) => Instance])[] = [
    ['any number at once, blood waits 10 min', (s) => s],
    ['1 test at once', (s) => change(s, { runningLimit: 1 })],
    ['2 tests at once', (s) => change(s, { runningLimit: 2 })],
    ['3 tests at once', (s) => change(s, { runningLimit: 3 })],
    ['test started at once after the draw', (s) => change(s, { sampleHoldMax: 0 })],
    ['blood waits 2 min', (s) => change(s, { sampleHoldMax: 4 })],
    ['blood waits 4 min', (s) => change(s, { sampleHoldMax: 8 })],
    ['blood waits 6 min', (s) => change(s, { sampleHoldMax: 12 })],
    ['2 at once and 4 min', (s) => change(s, { runningLimit: 2, sampleHoldMax: 8 })],
    [
      '**the holder fetches, 2 at once and 4 min (usual)**',
      (s) => fetching(change(s, { runningLimit: 2, sampleHoldMax: 8 })),
    ],
    ['putting back allowed', (s) => ({ ...s, splitVisitAllowed: true })],
  ];
  const rows = variants.map(([name]) => [name]);
  for (const [family, tests] of sizes) {
    const sections = Array.from({ length: seeds }, (_, r) => madeSection(family, tests, 20_000 + 100 * tests + r));
    let free: number[] = [];
    for (const [i, [, vary]] of variants.entries()) {
      const plans = sections.map((section) => planSection(vary(section), { keepGoing: within(400) }));
      const ends = plans.map((plan) => plan?.end ?? Number.NaN);
      if (i === 0) free = ends;
      const ratio = mean(ends.map((end, k) => end / (free[k] ?? end)));
      rows[i]?.push(figure(ratio), figure(mean(plans.map((plan) => plan?.spread ?? 0)) / 2, 1));
    }
  }
  report.table(['setting', ...sizes.flatMap(([family, tests]) => [`${family} ${tests}: end ×`, 'waiting'])], rows);
  const two = sizes.map(([family, tests]) => {
    const pairs = Array.from({ length: seeds }, (_, r) => madeSection(family, tests, 20_000 + 100 * tests + r)).map(
      (section) => {
        const one = planSection(section, { keepGoing: within(300) })?.end ?? Number.NaN;
        return (planTeams(section, 2, { keepGoing: within(1000) })?.end ?? Number.NaN) / one;
      },
    );
    return `${family} ${tests}: ${figure(mean(pairs), 2)}`;
  });
  report.line(`Two teams in one section, litters divided, end over that of one team: ${two.join('; ')}.`);
}
