import { ScheduleId } from '../../core/ids.js';
import { type Stand, standOf } from '../../log/bedside/stand.js';
import { type HappenedTest, type HappenedVisit, happenedOn, zeroOf } from '../../log/plan/happened.js';
import type { AheadVisit, LivePlan } from '../../log/plan/live.js';
import { commonWindow, kitFor } from '../../log/plan/stop.js';
import { isLeft } from '../../log/views/round/is-left.js';
import type { RoundView, SectionStop } from '../../log/views/round/round.js';
import { sectionOf } from '../../log/views/shelter.js';
import type { World } from '../../log/views/world.js';
import { say } from '../../words/say.js';
import { msOf } from '../clock.js';
import {
  type BlockState,
  inRows,
  partsOfPlan,
  type RibbonLane,
  type RibbonPicture,
  type RibbonSection,
  type RibbonThread,
  testIn,
  type Window,
} from './drawing/ribbon-data.js';
import type { Names } from './named.js';

/** The clock of a running round: what has happened, and after it what is to come. */
export function livePicture(
  world: World,
  view: RoundView,
  plan: LivePlan | null,
  now_s: number,
  names: Names,
): RibbonPicture {
  const lanes = [happenedLane(world, view, plan, now_s, names)];
  const planned = plannedLane(world, view, names);
  return { zero_ms: msOf(zeroOf(view)), lanes: planned === null ? lanes : [...lanes, planned] };
}

/** Opening and closing of the read window of a kit; where a step names none, of the only one it can be for the animal. */
const windowsIn =
  (world: World, view: RoundView, section: string) =>
  (kit: string | undefined, animal: string): Window => {
    const stop = view.stops.find((one) => one.section.id === section);
    const tests = (stop?.animals.find((one) => one.animal.id === animal)?.lines ?? []).filter(
      (line) => line.action === 'test',
    );
    const [only, ...more] = tests.length > 1 ? tests.filter(isLeft) : tests;
    const schedule =
      kit === undefined ? (more.length > 0 ? undefined : only?.schedule) : ScheduleId.safeParse(kit).data;
    const own = schedule === undefined ? null : kitFor(world, schedule);
    return own === null ? windowOfAll(world, stop) : { opens_s: own.readOpens_s, closes_s: own.readCloses_s };
  };

/** What all kits allow that the tests of a section ask for. */
function windowOfAll(world: World, stop: SectionStop | undefined): Window {
  const tests = (stop?.animals ?? []).flatMap(({ lines }) => lines.filter((line) => line.action === 'test'));
  const { opens_s, closes_s } = commonWindow(tests.map((line) => kitFor(world, line.schedule)));
  return { opens_s, closes_s: Math.max(opens_s, closes_s) };
}

function happenedLane(world: World, view: RoundView, plan: LivePlan | null, now_s: number, names: Names): RibbonLane {
  const happened = happenedOn(world, view);
  const ahead = new Map((plan?.ahead ?? []).map((visit) => [visit.section, visit]));
  const sections = happened.map((visit, i): RibbonSection => {
    // Only the last visit of a section goes on.
    const isLast = happened.findLastIndex((one) => one.section === visit.section) === i;
    const next = isLast && visit.to_s === null ? (ahead.get(visit.section) ?? null) : null;
    return visited(world, view, visit, next, now_s, names);
  });
  const been = new Set(happened.map((visit) => visit.section));
  const coming = (plan?.ahead ?? []).filter((visit) => !been.has(visit.section));
  const over = view.state === 'handed-back' || view.state === 'accepted';
  return {
    name: say(over ? 'ribbon.lane.happened' : 'ribbon.lane.now'),
    sections: [...sections, ...coming.map((visit) => aheadSection(world, view, visit, names))],
  };
}

function aheadSection(world: World, view: RoundView, visit: AheadVisit, names: Names): RibbonSection {
  const parts = partsOfPlan({ ...visit, windowOf: windowsIn(world, view, visit.section), nameOf: names });
  const section = sectionOf(world.shelter, visit.section);
  return {
    id: visit.section,
    name: section?.name ?? visit.section,
    rank: section?.rank ?? 'clean-adults',
    start_s: visit.start_s,
    inside_s: visit.inside_s,
    work_s: parts.end_s,
    end_s: visit.end_s,
    gloves: parts.gloves,
    blocks: parts.blocks,
    ways: parts.ways,
    threads: parts.threads,
  };
}

function visited(
  world: World,
  view: RoundView,
  visit: HappenedVisit,
  next: AheadVisit | null,
  now_s: number,
  names: Names,
): RibbonSection {
  const coming =
    next === null ? null : partsOfPlan({ ...next, windowOf: windowsIn(world, view, visit.section), nameOf: names });
  const section = sectionOf(world.shelter, visit.section);
  const stop = view.stops.find((one) => one.section.id === visit.section);
  const standing = new Map<string, Stand>((stop?.animals ?? []).map((one) => [one.animal.id, standOf(one)]));
  const threads = visit.tests.map((test): Omit<RibbonThread, 'row'> => {
    const readAt_s = test.readAt_s ?? (next === null ? null : plannedReading(next, test, visit.tests));
    const state =
      test.inWindow === null ? (test.closes_s < now_s ? 'missed' : 'running') : test.inWindow ? 'read' : 'missed';
    return {
      animal: test.animal,
      name: isOneOf(test, visit.tests) ? testIn(names(test.animal), names(test.schedule)) : names(test.animal),
      from_s: test.startedAt_s,
      opens_s: test.opens_s,
      closes_s: test.closes_s,
      readAt_s,
      state,
    };
  });
  const to_s = visit.to_s ?? Math.max(now_s, coming?.end_s ?? 0);
  return {
    id: visit.section,
    name: section?.name ?? visit.section,
    rank: section?.rank ?? 'clean-adults',
    start_s: visit.from_s,
    inside_s: visit.from_s,
    work_s: to_s,
    end_s: next?.end_s ?? to_s,
    gloves: coming?.gloves ?? [],
    blocks: [
      ...visit.blocks.map((block) => {
        const stand = standing.get(block.animal);
        return {
          ...block,
          name: names(block.animal),
          state: stateOf(stand),
          ...(stand === undefined ? {} : { stand }),
        };
      }),
      ...(coming?.blocks ?? []),
    ],
    ways: coming?.ways ?? [],
    threads: inRows([...threads, ...(coming?.threads ?? []).map(({ row: _, ...thread }) => thread)]),
  };
}

function stateOf(stand: Stand | undefined): BlockState {
  if (stand === 'done' || stand === 'not-done') return stand;
  return stand === undefined || stand === 'running' || stand === 'open' ? 'under' : 'look';
}

const isOneOf = (test: HappenedTest, tests: readonly HappenedTest[]): boolean =>
  tests.some((one) => one.animal === test.animal && one.schedule !== test.schedule);

/** When a test that still runs is to be read. A step that names no kit is that of the only one running in the animal. */
function plannedReading(next: AheadVisit, test: HappenedTest, tests: readonly HappenedTest[]): number | null {
  if (test.inWindow !== null) return null;
  const others = tests.some((one) => one !== test && one.animal === test.animal && one.inWindow === null);
  const step = next.steps.find(
    ({ is, animal, kit }) =>
      is === 'reading' && animal === test.animal && (kit === undefined ? !others : kit === test.schedule),
  );
  return step === undefined ? null : next.inside_s + step.start * next.unitSeconds;
}

/** The plan as it was when the round was laid down. */
export function plannedLane(world: World, view: RoundView, names: Names): RibbonLane | null {
  const ribbon = view.facts.plan.ribbon;
  if (ribbon === undefined) return null;
  const { unitSeconds } = ribbon;
  return {
    name: say('ribbon.lane.planned'),
    sections: ribbon.visits.map((visit) => {
      const inside_s = visit.inside * unitSeconds;
      return aheadSection(
        world,
        view,
        {
          section: visit.section,
          start_s: visit.start * unitSeconds,
          inside_s,
          out_s: visit.out * unitSeconds,
          end_s: visit.end * unitSeconds,
          steps: visit.steps,
          unitSeconds,
        },
        names,
      );
    }),
  };
}
