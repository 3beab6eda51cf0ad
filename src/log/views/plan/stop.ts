import { daysBetween } from '../../../core/calendar.js';
import type { KitTypeId } from '../../../core/ids.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { inUnits } from '../../../core/round/plan/durations.js';
import type { Instance, PlanLitter } from '../../../core/round/plan/instance.js';
import type { RoundSection } from '../../../core/round/plan/round-shape.js';
import { withSettings } from '../../../core/round/plan/settings.js';
import { type Said, said } from '../../../core/said.js';
import type { RibbonSettings } from '../../kinds/ribbon.js';
import { type PreparedSection, productFor } from '../prepare.js';
import { scheduleNamed } from '../schedules.js';
import type { Section } from '../shelter.js';
import type { World } from '../world.js';
import { lengthOf, type Timed } from './durations.js';
import { kindOf, type Line, operationsOf } from './operations.js';
import { entering, unitSeconds } from './settings.js';

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
      .filter(({ due }) => due.length > 0)
      .map(({ animal, due }): PlannedAnimal => {
        const lines = due.map((item): Line => {
          const product = item.action === 'give' ? (productFor(world, item)?.id ?? null) : null;
          return {
            schedule: item.schedule,
            action: item.action,
            kind: kindOf(world, item.schedule, item.action, product),
          };
        });
        return { animal, lines, overdueDays: Math.max(0, ...due.map((item) => overdueBy(item, today))) };
      });
    return met.length === 0 ? [] : [{ section, animals: met }];
  });
}

const overdueBy = (item: DueItem, today: DueItem['due']): number =>
  today === null || item.overdueAfter === null ? 0 : Math.max(0, daysBetween(item.overdueAfter, today));

/** How the planner calls a litter; an animal without one is a litter of its own. */
export const litterIdOf = (section: string, animal: PlannedAnimal['animal']): string =>
  `${section}/${animal.litter?.id ?? animal.id}`;

/** One stop as an instance of the planner, with what it costs to get in and out. Kits are not set here. */
export function buildStop(world: World, stop: PlannedStop, timed: Timed, settings: RibbonSettings): BuiltStop {
  const units = (kind: string): number => inUnits(lengthOf(timed, kind).seconds, unitSeconds);
  const litters = new Map<string, PlanLitter['animals']>();
  for (const one of stop.animals) {
    const id = litterIdOf(stop.section.id, one.animal);
    const ops = operationsOf(one.lines).map(({ kind, lines }) => {
      const kinds = kind === 'draw' ? [...before(lines), 'draw'] : [kind];
      return { kind, dur: kinds.reduce((sum, each) => sum + units(each), 0) };
    });
    const tested = one.lines.some((line) => line.action === 'test');
    const animal = { id: one.animal.id, tested, ops, overdueDays: one.overdueDays };
    litters.set(id, [...(litters.get(id) ?? []), animal]);
  }
  const { test, problems } = testTimes(world, stop, units);
  const bare: Instance = {
    id: stop.section.id,
    unitSeconds,
    gloveChange: units('glove-change'),
    fetch: units('fetch'),
    refetch: units('refetch'),
    splitVisitAllowed: false,
    test,
    kitReadyAt: null,
    litters: [...litters].map(([id, animals]) => ({ id, animals })),
  };
  const dressed = stop.section.wear.some((item) => item !== 'wear.gloves');
  const seconds = (value: number): number => Math.ceil(value / unitSeconds);
  return {
    problems,
    stop: {
      section: withSettings(bare, settings),
      don: seconds(entering.walk + (dressed ? entering.don : 0)),
      doff: seconds(dressed ? entering.doff : 0),
      cartDisinfection: seconds(Math.max(entering.cart, stop.section.contactMinutes * 60)),
    },
  };
}

const before = (lines: readonly Line[]): string[] =>
  lines.filter((line) => line.action !== 'test').map((line) => line.kind);

/** The kit types that the tests of a stop ask for. */
export function kitTypesOf(world: World, stop: PlannedStop): KitTypeId[] {
  const kits = world.shelter.formulary?.kits ?? [];
  const schedules = new Set(
    stop.animals.flatMap((one) => one.lines.flatMap((l) => (l.action === 'test' ? [l.schedule] : []))),
  );
  const found = [...schedules].flatMap((schedule) => {
    const wanted: readonly string[] = scheduleNamed(world.shelter, schedule)?.satisfiedBy ?? [];
    return kits.find((kit) => kit.tests.some((test) => wanted.includes(test)))?.id ?? [];
  });
  return [...new Set(found)];
}

/** Window of the section's kits: where several kinds are used, the part that suits them all. */
function testTimes(
  world: World,
  stop: PlannedStop,
  units: (kind: string) => number,
): { readonly test: Instance['test']; readonly problems: readonly Said[] } {
  const types = kitTypesOf(world, stop);
  const kits = (world.shelter.formulary?.kits ?? []).filter((kit) => types.includes(kit.id));
  const most = Math.max(1, ...stop.animals.map((one) => one.lines.filter((line) => line.action === 'test').length));
  const read = units('read') * most;
  const opens = Math.ceil(Math.max(0, ...kits.map((kit) => kit.readOpens_s)) / unitSeconds);
  const closes = Math.floor(Math.min(...kits.map((kit) => kit.readCloses_s), 36_000) / unitSeconds);
  const readLagMin = Math.max(1, opens);
  // A reading is over before its window closes.
  const readLagMax = Math.max(readLagMin, closes - read);
  const tight = kits.length > 0 && closes - read < readLagMin;
  return {
    test: {
      start: units('start-test') * most,
      readLagMin,
      readLagMax,
      read,
      sampleHoldMax: 0,
      runningLimit: null,
    },
    problems: tight ? [said('ribbon.window-tight', { section: stop.section.name })] : [],
  };
}
