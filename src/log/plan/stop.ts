import { daysBetween } from '../../core/calendar.js';
import type { KitType } from '../../core/dosing/formulary.js';
import { type KitTypeId, ScheduleId } from '../../core/ids.js';
import type { DueItem } from '../../core/protocol/due.js';
import { inUnits } from '../../core/route-plan/model/durations.js';
import type { Instance, PlanLitter } from '../../core/route-plan/model/instance.js';
import { withSettings } from '../../core/route-plan/model/settings.js';
import type { RoundSection } from '../../core/route-plan/whole-round/round-shape.js';
import { type Said, said } from '../../core/said.js';
import type { RibbonSettings } from '../kinds/ribbon.js';
import { productFor } from '../prepare/item-needs.js';
import { type PreparedSection, weighingSchedule } from '../prepare/prepare.js';
import { scheduleNamed } from '../views/due/schedules.js';
import { groupOf } from '../views/round/group.js';
import type { Section } from '../views/shelter.js';
import type { World } from '../views/world.js';
import { lengthOf, type Timed } from './durations.js';
import { kindOf, type Line, operationsOf } from './operations.js';
import { entering, mostRho, unitSeconds } from './settings.js';

/** One animal with what is to be done to it, in the order of one visit. */
export interface PlannedAnimal {
  readonly animal: { readonly id: string; readonly litter: { readonly id: string } | null };
  readonly lines: readonly Line[];
  readonly overdueDays: number;
}

/** A section with the animals that are to be met there. */
export interface PlannedStop {
  readonly section: Section;
  readonly animals: readonly PlannedAnimal[];
}

export interface BuiltStop {
  readonly stop: RoundSection;
  /** What the plan has to leave out of account, as sentences. */
  readonly problems: readonly Said[];
}

/** What is due in the sections of a preparation; animals for which everything waits are not met. */
export function stopsOf(world: World, sections: readonly PreparedSection[], today: DueItem['due']): PlannedStop[] {
  return sections.flatMap(({ section, animals }) => {
    const met = animals
      .filter(({ due, weighFirst }) => due.length > 0 || weighFirst)
      .map(({ animal, due, weighFirst }): PlannedAnimal => {
        const weighing = weighFirst && !due.some((item) => item.action === 'weigh') ? [weighingLine(world)] : [];
        const lines = due.map((item): Line => {
          const product = item.action === 'give' ? (productFor(world, item)?.id ?? null) : null;
          return {
            schedule: item.schedule,
            action: item.action,
            kind: kindOf(world, item.schedule, item.action, product),
          };
        });
        return {
          animal,
          lines: [...weighing, ...lines],
          overdueDays: Math.max(0, ...due.map((item) => overdueBy(item, today))),
        };
      });
    return met.length === 0 ? [] : [{ section, animals: met }];
  });
}

/** The stops with some of their lines; who has none left is not met. */
export function withLines(
  stops: readonly PlannedStop[],
  stays: (animal: string, line: Line) => boolean,
): PlannedStop[] {
  return stops.flatMap((stop) => {
    const animals = stop.animals.flatMap((one) => {
      const lines = one.lines.filter((line) => stays(one.animal.id, line));
      return lines.length === 0 ? [] : [{ ...one, lines }];
    });
    return animals.length === 0 ? [] : [{ ...stop, animals }];
  });
}

/** Weighing that nothing due asks for, but that a dose has to wait for. */
const weighingLine = (world: World): Line => ({
  schedule: weighingSchedule(world) ?? ScheduleId.parse('weigh-first'),
  action: 'weigh',
  kind: 'weigh',
});

/** Whole days past the last day on which it was in time. */
export const overdueBy = (item: DueItem, today: DueItem['due']): number =>
  today === null || item.overdueAfter === null ? 0 : Math.max(0, daysBetween(item.overdueAfter, today));

/** How the planner calls a litter; an animal without one is a litter of its own. */
export const litterIdOf = (section: string, animal: PlannedAnimal['animal']): string => `${section}/${groupOf(animal)}`;

/** One stop as an instance of the planner, with what it costs to get in and out. Kits are not set here. */
export function buildStop(world: World, stop: PlannedStop, timed: Timed, settings: RibbonSettings): BuiltStop {
  const units = (kind: string): number => inUnits(lengthOf(timed, kind).seconds, unitSeconds);
  const litters = new Map<string, PlanLitter['animals']>();
  const { test, problems, apart } = testTimes(world, stop, units);
  for (const one of stop.animals) {
    const id = litterIdOf(stop.section.id, one.animal);
    const ops = operationsOf(one.lines).map(({ kind, lines }) => {
      const kinds = kind === 'draw' ? [...before(lines), 'draw'] : [kind];
      return { kind, dur: kinds.reduce((sum, each) => sum + units(each), 0) };
    });
    const tests = testsOf(one.lines);
    const bare = { id: one.animal.id, tested: tests.length > 0, ops, overdueDays: one.overdueDays };
    // Kits are named where it matters which is which.
    const animal = tests.length > 1 || (apart && tests.length > 0) ? { ...bare, kits: tests } : bare;
    litters.set(id, [...(litters.get(id) ?? []), animal]);
  }
  const bare: Instance = {
    id: stop.section.id,
    unitSeconds,
    gloveChange: units('glove-change'),
    fetch: units('fetch'),
    refetch: units('refetch'),
    confirm: Math.min(units('confirm'), units('fetch') - 1),
    splitVisitAllowed: false,
    test,
    kitReadyAt: null,
    litters: [...litters].map(([id, animals]) => ({ id, animals })),
  };
  const dressed = stop.section.wear.some((item) => item !== 'wear.gloves');
  const seconds = (value: number): number => Math.ceil(value / unitSeconds);
  const room = withRoomFor(withSettings(bare, settings), mostTests(stop));
  return {
    problems: room.changed
      ? [...problems, said('plan.two-from-one-draw', { section: stop.section.name, count: mostTests(stop) })]
      : problems,
    stop: {
      section: room.section,
      don: seconds(entering.walk + (dressed ? entering.don : 0)),
      doff: seconds(dressed ? entering.doff : 0),
      cartDisinfection: seconds(Math.max(entering.cart, stop.section.contactMinutes * 60)),
    },
  };
}

const before = (lines: readonly Line[]): string[] =>
  lines.filter((line) => line.action !== 'test').map((line) => line.kind);

/** The kit that a test schedule asks for; null when the formulary has none. */
export function kitFor(world: World, schedule: ScheduleId): KitType | null {
  const wanted: readonly string[] = scheduleNamed(world.shelter, schedule)?.satisfiedBy ?? [];
  return world.shelter.formulary?.kits.find((kit) => kit.tests.some((test) => wanted.includes(test))) ?? null;
}

/** Longer than any round: where the formulary has no kit, nothing is known to close. */
const neverCloses_s = 10 * 60 * 60;

/** When all these kits can be read, in seconds after their start; it may close before it opens. */
export const commonWindow = (kits: readonly (KitType | null)[]): { opens_s: number; closes_s: number } => ({
  opens_s: Math.max(0, ...kits.map((kit) => kit?.readOpens_s ?? 0)),
  closes_s: Math.min(neverCloses_s, ...kits.map((kit) => kit?.readCloses_s ?? neverCloses_s)),
});

const testsOf = (lines: readonly Line[]): ScheduleId[] =>
  lines.flatMap((line) => (line.action === 'test' ? [line.schedule] : []));

/** The kit types that the tests of a stop ask for. */
export function kitTypesOf(world: World, stop: PlannedStop): KitTypeId[] {
  const found = stop.animals.flatMap(({ lines }) => testsOf(lines).flatMap((one) => kitFor(world, one)?.id ?? []));
  return [...new Set(found)];
}

interface Window {
  readonly readLagMin: number;
  readonly readLagMax: number;
  readonly tight: boolean;
}

/** Times of the section's tests. Each kit has its own window, unless one draw serves two that could not both be read. */
function testTimes(
  world: World,
  stop: PlannedStop,
  units: (kind: string) => number,
): { readonly test: Instance['test']; readonly problems: readonly Said[]; readonly apart: boolean } {
  const schedules = [...new Set(stop.animals.flatMap((one) => testsOf(one.lines)))];
  const most = mostTests(stop);
  const read = units('read');
  const windowOf = ({ opens_s, closes_s }: ReturnType<typeof commonWindow>): Window => {
    const readLagMin = Math.max(1, Math.ceil(opens_s / unitSeconds));
    // A reading is over before its window closes.
    const last = Math.floor(closes_s / unitSeconds) - read;
    return { readLagMin, readLagMax: Math.max(readLagMin, last), tight: last < readLagMin };
  };
  const kits = schedules.map((schedule) => kitFor(world, schedule));
  const own = kits.map((kit) => windowOf(commonWindow([kit])));
  const [first] = own;
  const same = own.every((one) => one.readLagMin === first?.readLagMin && one.readLagMax === first?.readLagMax);
  const narrow = own.some((one) => one.readLagMax - one.readLagMin < read * (most - 1));
  const apart = !same && !narrow;
  const common = windowOf(commonWindow(kits));
  const usual = apart && first !== undefined ? first : common;
  const tight = schedules.length > 0 && (apart ? own.some((one) => one.tight) : common.tight);
  const windows = Object.fromEntries(
    schedules.map((schedule, i) => {
      const { readLagMin, readLagMax } = own[i] ?? common;
      return [schedule, { readLagMin, readLagMax }];
    }),
  );
  return {
    apart,
    test: {
      start: units('start-test'),
      readLagMin: usual.readLagMin,
      readLagMax: usual.readLagMax,
      read,
      sampleHoldMax: 0,
      runningLimit: null,
      ...(apart ? { windows } : {}),
    },
    problems: tight ? [said('ribbon.window-tight', { section: stop.section.name })] : [],
  };
}

const mostTests = (stop: PlannedStop): number => Math.max(1, ...stop.animals.map((one) => testsOf(one.lines).length));

/** Where one draw serves several tests, so many run at once and the blood for the last waits while the others are started. */
function withRoomFor(section: Instance, most: number): { readonly section: Instance; readonly changed: boolean } {
  const { test } = section;
  const runningLimit = test.runningLimit === null ? null : Math.max(test.runningLimit, most);
  const sampleHoldMax = Math.max(test.sampleHoldMax, Math.ceil((most - 1) * test.start * mostRho));
  const changed = runningLimit !== test.runningLimit || sampleHoldMax !== test.sampleHoldMax;
  return { section: changed ? { ...section, test: { ...test, runningLimit, sampleHoldMax } } : section, changed };
}
