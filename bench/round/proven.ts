import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { Instance } from '../../src/core/route-plan/model/instance.js';
import { byHand } from '../../test/support/by-hand/people.js';
import { figure, largest, mean, median, percent, type Report } from '../report.js';
import { timed } from './families.js';

const Part = z.object({
  groups: z.array(
    z.object({
      cases: z.array(z.object({ check: z.string(), given: z.record(z.string(), z.unknown()), expect: z.unknown() })),
    }),
  ),
});
const Shortest = z.object({ given: z.object({ section: Instance }), expect: z.object({ end: z.number() }) });
const Calmest = z.object({ given: z.object({ section: z.string(), spread: z.number() }) });

/** The small sections of reference/planning.json, whose shortest ends are proven. */
export function proven(report: Report): void {
  const cases = Part.parse(JSON.parse(readFileSync('reference/planning.json', 'utf8'))).groups.flatMap(
    (group) => group.cases,
  );
  const known = cases.filter((one) => one.check === 'shortest').map((one) => Shortest.parse(one));
  const calm = new Map(
    cases
      .filter((one) => one.check === 'calmest')
      .map((one) => {
        const { given } = Calmest.parse(one);
        return [given.section, given.spread] as const;
      }),
  );
  const seen = known.map(({ given: { section }, expect: { end } }) => ({ section, end, ...timed(section, 1) }));
  const right = seen.filter((one) => one.plan.end === one.end).length;
  const spread = seen.flatMap((one) => {
    const least = calm.get(one.section.id);
    return least === undefined ? [] : [one.plan.spread - least];
  });
  const people = seen.filter(
    (one) => one.section.litters.flatMap((l) => l.animals).filter((a) => a.tested).length >= 2,
  );
  const [careful, waits] = (['careful', 'waits-for-each'] as const).map((who) =>
    people.map((one) => byHand(one.section, who).end / one.end - 1),
  );
  report.heading('### Small sections with proven shortest plans');
  report.line(
    `${right} of ${seen.length} plans are exactly as short as proven; the best plan came after ${figure(median(seen.map((one) => one.bestMs)), 0)} ms (median; ${figure(largest(seen.map((one) => one.bestMs)), 0)} ms at most).`,
  );
  report.line(
    `Our bound is below none of them by more than ${percent(largest(seen.map((one) => one.end / one.plan.bounds.best - 1)), 1)} and equal to ${seen.filter((one) => one.plan.bounds.best === one.end).length}.`,
  );
  report.line(
    `Of ${spread.length} known least times that animals are kept waiting, ${spread.filter((one) => one === 0).length} are met and ${spread.filter((one) => one <= 2).length} are within one minute.`,
  );
  report.line(
    `With two tests or more the careful person takes ${percent(mean(careful ?? []), 1)} longer (at most ${percent(largest(careful ?? []), 1)}), the one who waits for each ${percent(mean(waits ?? []), 1)} (at most ${percent(largest(waits ?? []), 1)}).`,
  );
  report.goal('plans longer than proven', seen.length - right, 0);
  report.goal(
    'least waiting missed by more than a minute, share',
    1 - spread.filter((one) => one <= 2).length / spread.length,
    0.1,
  );
}
