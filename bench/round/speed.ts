import type { Instance, Step } from '../../src/core/route-plan/model/instance.js';
import { type AnimalState, RunState } from '../../src/core/route-plan/model/run-state.js';
import { replan } from '../../src/core/route-plan/replay/replan.js';
import { planSection } from '../../src/core/route-plan/search/search.js';
import { planRound } from '../../src/core/route-plan/whole-round/round.js';
import { type Family, madeSection } from '../../test/support/plan-families.js';
import { cpuNow, figure, largest, median, percent, type Report, within } from '../report.js';
import type { Yardstick } from '../yardstick.js';
import { fetching } from './settings.js';
import { shelter } from './shelter.js';

/** Replanning after one event, in the middle of a section; and a whole shelter for four teams. */
export function speed(report: Report, yardstick: Yardstick): void {
  report.heading('### Speed');
  const rows: string[][] = [];
  // How long a search is told to take is no speed; how far it goes beyond is.
  const beyond = (ms: number, told_ms: number): number => Math.max(0, ms - told_ms) / yardstick.ms();
  for (const [family, tests, people] of [
    ['mixed', 8],
    ['mixed', 12],
    ['alltest', 12],
    ['mixed', 24],
    ['mixed', 12, 'the holder fetches'],
    ['alltest', 12, 'the holder fetches'],
  ] as const) {
    const times: number[] = [];
    for (let r = 0; r < 6; r += 1) {
      const made = madeSection(family as Family, tests, 20_000 + 100 * tests + r);
      const section = people === undefined ? made : fetching(made);
      const plan = planSection(section, { keepGoing: within(300) });
      if (plan === null) throw new Error('no plan');
      for (const share of [0.1, 0.3, 0.5, 0.7]) {
        const state = lateBy(section, plan.steps, Math.floor(plan.steps.length * share));
        const start = cpuNow();
        const again = replan(section, plan.steps, { state, keepGoing: within(70) });
        times.push(cpuNow() - start);
        if (again === null) throw new Error(`${section.id} cannot go on`);
      }
    }
    const name = [`${family} ${tests}`, ...(people === undefined ? [] : [people])].join(', ');
    rows.push([name, String(times.length), figure(median(times), 0), figure(largest(times), 0)]);
    yardstick.again();
    report.goal(`replan ${name}: beyond its time, worst over the yardstick`, beyond(largest(times), 70), 8);
  }
  report.line(
    'Planning anew after a step that took 3 units too long and an animal that cannot be found, search told to end after 70 ms:',
  );
  report.table(['section', 'events', 'ms, median', 'ms, max'], rows);

  const asOne = shelter(6, 10, 50);
  const apart = shelter(6, 10, 50, fetching);
  const animals = asOne.sections.flatMap((stop) => stop.section.litters.flatMap((litter) => litter.animals));
  const sizes = [
    { name: '1', round: asOne, teams: 1 },
    { name: '4', round: asOne, teams: 4 },
    { name: '4, the holders fetch', round: apart, teams: 4 },
  ];
  const large = sizes.map(({ name, round, teams }) => {
    const start = cpuNow();
    const plan = planRound({ ...round, teams }, { keepGoing: within(4500) });
    if (plan === null) throw new Error('no plan');
    return { name, ms: cpuNow() - start, plan };
  });
  report.line(
    `${animals.length} animals with ${animals.filter((one) => one.tested).length} tests in ${asOne.sections.length} sections, search told to end after 4.5 s:`,
  );
  report.table(
    ['teams', 'end, min', 'above the bound', 'shortest team, min', 's'],
    large.map(({ name, ms, plan }) => [
      name,
      figure(plan.end / 2, 1),
      percent(plan.end / plan.bound - 1, 1),
      figure(Math.min(...plan.teams.map((t) => t.end)) / 2, 1),
      figure(ms / 1000, 1),
    ]),
  );
  yardstick.again();
  for (const { name, ms } of large.slice(1))
    report.goal(`300 animals, 60 tests, teams: ${name}: beyond its time, over the yardstick`, beyond(ms, 4500), 130);
}

/** The state after `count` steps as planned, the last of them late, with one untouched animal that cannot be found. */
function lateBy(section: Instance, steps: readonly Step[], count: number): RunState {
  const animals = new Map(
    section.litters.flatMap((l) =>
      l.animals.map((a) => [a.id, { id: a.id, done: 0, sample: null, leave: 'nothing' } as AnimalState]),
    ),
  );
  let [openLitter, openAnimal]: [string | null, string | null] = [null, null];
  for (const step of steps.slice(0, count)) {
    const end = step.start + step.duration;
    if (step.is === 'gloves') openLitter = step.litter;
    const own = animals.get(step.animal ?? '');
    const known = section.litters.flatMap((l) => l.animals).find((a) => a.id === step.animal);
    if (own === undefined || known === undefined) continue;
    if (step.is === 'handling') {
      animals.set(own.id, {
        ...own,
        done: own.done + 1,
        sample: known.tested && step.op === 0 ? { is: 'waiting', since: end } : own.sample,
      });
      openAnimal = own.done + 1 < known.ops.length ? own.id : null;
    } else
      animals.set(own.id, { ...own, sample: step.is === 'reading' ? { is: 'read' } : { is: 'running', since: end } });
  }
  const gone = [...animals.values()].find((one) => one.done === 0);
  if (gone !== undefined) animals.set(gone.id, { ...gone, leave: 'everything' });
  const now = largest([0, ...steps.slice(0, count).map((step) => step.start + step.duration)]) + 3;
  return RunState.parse({ now, animals: [...animals.values()], openLitter, openAnimal });
}
