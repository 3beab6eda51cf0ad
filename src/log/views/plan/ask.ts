import { secondsUntil } from '../../../core/point-of-care/kit.js';
import type { Instance } from '../../../core/round/plan/instance.js';
import type { Round, RoundPlan } from '../../../core/round/plan/round-shape.js';
import { safeRho } from '../../../core/round/plan/search.js';
import { withSupplies } from '../../../core/round/plan/supplies.js';
import { type Said, said } from '../../../core/said.js';
import type { PlannedRibbon, RibbonSettings } from '../../kinds/ribbon.js';
import { type Preparation, usableLots } from '../prepare.js';
import type { World } from '../world.js';
import { lengthOf, timedIn } from './durations.js';
import { warmFrom, warmingOf } from './kits.js';
import { unitSeconds } from './settings.js';
import { buildStop, kitTypesOf, type PlannedStop, stopsOf } from './stop.js';

/** What a person chose for a plan. Instants; `endsAt` null when the shift does not end the round. */
export interface PlanChoice {
  readonly startsAt: string;
  readonly endsAt: string | null;
  readonly teams: number;
  readonly settings: RibbonSettings;
}

/** What the planner is asked, with what a plan is explained by. */
export interface PlanAsk {
  readonly round: Round;
  readonly rho: number;
  readonly stops: readonly PlannedStop[];
  readonly problems: readonly Said[];
  /** Animals whose test has no kit left. */
  readonly untested: readonly string[];
  /** Kinds of operation whose length is still assumed, with how many times are recorded. */
  readonly assumed: readonly { readonly kind: string; readonly recorded: number }[];
  readonly kits: {
    readonly wanted: number;
    readonly out: number;
    /** When the others have to leave the cold to be warm at the start, in seconds from the start; 0 or less. */
    readonly takeOut_s: number | null;
  };
}

/** The planner's question for a preparation; null when nothing is to be done. `now` is before the start. */
export function askFor(world: World, plan: Preparation, choice: PlanChoice, now: string): PlanAsk | null {
  const stops = stopsOf(world, plan.sections, plan.on);
  if (stops.length === 0) return null;
  const timed = timedIn(world);
  const built = stops.map((stop) => ({
    ...buildStop(world, stop, timed, choice.settings),
    types: kitTypesOf(world, stop),
  }));
  const types = [...new Set(built.flatMap((one) => one.types))];
  const supplied = withKitsLeft(
    built.map((one) => one.stop.section),
    kitsLeft(world, types, plan),
  );
  const sections = built.flatMap(({ stop }, at) => {
    const section = supplied.sections[at];
    return section == null ? [] : [{ ...stop, section }];
  });
  if (sections.length === 0) return null;
  const wanted = sections.reduce((sum, { section }) => sum + testsIn(section), 0);
  const warming = warming_s(world, types, wanted, choice.startsAt, now);
  const shift = choice.endsAt === null ? null : inWholeUnits(secondsUntil(choice.startsAt, choice.endsAt));
  const kinds = kindsIn(sections.map((one) => one.section));
  const lengths = kinds.map((kind) => ({ kind, length: lengthOf(timed, kind) }));
  return {
    round: {
      id: 'round',
      sections,
      teams: choice.teams,
      shift,
      kitWarmUp: wanted === 0 ? null : Math.max(0, Math.ceil(warming.ready_s / unitSeconds)),
      kitGoodFor: wanted === 0 || warming.limit_s === null ? null : inWholeUnits(warming.limit_s),
    },
    rho: rhoFor(lengths.map(({ length }) => length.stretch)),
    stops,
    problems: [
      ...built.flatMap((one) => one.problems),
      ...(supplied.untested.length === 0 ? [] : [said('ribbon.no-kit', { animals: { list: supplied.untested } })]),
    ],
    untested: supplied.untested,
    assumed: lengths.flatMap(({ kind, length }) =>
      length.from === 'own' ? [] : [{ kind, recorded: length.recorded }],
    ),
    kits: { wanted, out: warming.out, takeOut_s: warming.takeOut_s },
  };
}

/**
 * How many times its length a step may take: as long as 19 of 20 really do, but never below the factor at which no
 * window was missed in the simulation (docs/benchmarks.md), since interruptions are in no median.
 */
const rhoFor = (stretches: readonly number[]): number => Math.min(mostRho, Math.max(safeRho, ...stretches));
const mostRho = 3;

const inWholeUnits = (seconds: number): number => Math.max(0, Math.floor(seconds / unitSeconds));

const testsIn = (section: Instance): number =>
  section.litters.reduce((sum, litter) => sum + litter.animals.filter((animal) => animal.tested).length, 0);

/** Tests in usable boxes; null when no box of the kind was ever received, so that nothing is left out by ignorance. */
function kitsLeft(world: World, types: readonly string[], plan: Preparation): number | null {
  const known = [...world.shelter.lots.values()].some((lot) => lot.of.is === 'kit' && types.includes(lot.of.kitType));
  if (!known) return null;
  return usableLots(world, (of) => of.is === 'kit' && types.includes(of.kitType), plan.on).reduce(
    (sum, { left }) => sum + left,
    0,
  );
}

/** Which tests go ahead when kits run short: the most overdue of the whole round first. */
function withKitsLeft(
  sections: readonly Instance[],
  left: number | null,
): { readonly sections: readonly (Instance | null)[]; readonly untested: readonly string[] } {
  const tested = sections.flatMap((section, at) =>
    section.litters.flatMap((litter) =>
      litter.animals.filter((one) => one.tested).map(({ overdueDays }) => ({ at, overdueDays })),
    ),
  );
  if (left === null || tested.length <= left) return { sections, untested: [] };
  const chosen = [...tested].sort((a, b) => b.overdueDays - a.overdueDays).slice(0, left);
  const parts = sections.map((section, at) =>
    withSupplies(section, { kits: chosen.filter((one) => one.at === at).length, readySyringes: null }),
  );
  return { sections: parts.map((part) => part.instance), untested: parts.flatMap((part) => part.untested) };
}

/** When the kits are warm, counted from the start: those that are out, and the others taken out in time or now. */
function warming_s(world: World, types: readonly string[], wanted: number, startsAt: string, now: string) {
  const { warm_s, limit_s } = warmingOf(world, types);
  const before_s = Math.max(0, secondsUntil(now, startsAt));
  const out = warmFrom(world, types, now).map((warm) => warm - before_s);
  const short = out.length < wanted;
  const takeOut_s = short ? -Math.min(warm_s, before_s) : null;
  const last = short ? warm_s + (takeOut_s ?? 0) : (out[wanted - 1] ?? 0);
  return { ready_s: last, limit_s, out: Math.min(out.length, wanted), takeOut_s };
}

function kindsIn(sections: readonly Instance[]): string[] {
  const kinds = new Set(['glove-change', 'fetch']);
  for (const section of sections) {
    for (const litter of section.litters) {
      for (const animal of litter.animals) {
        for (const op of animal.ops) kinds.add(op.kind);
        if (animal.tested) kinds.add('start-test').add('read');
      }
    }
  }
  return [...kinds];
}

/** A plan of one team as it is kept in the record of its round. */
export function ribbonOf(round: Round, plan: RoundPlan, team: number, settings: RibbonSettings): PlannedRibbon {
  const own = plan.teams[team]?.visits ?? [];
  return {
    unitSeconds,
    settings,
    bound: Math.min(plan.bound, plan.end),
    visits: own.map(({ section, start, inside, end, plan: { steps, end: length } }) => {
      const stop = round.sections.find((one) => one.section.id === section);
      return {
        section,
        start,
        inside,
        out: Math.min(end, inside + length + (stop?.doff ?? 0)),
        end,
        steps: [...steps],
      };
    }),
  };
}

/** Animals in the order of a plan, each once. */
export const orderOf = (ribbon: Pick<PlannedRibbon, 'visits'>): string[] => [
  ...new Set(
    ribbon.visits.flatMap((visit) =>
      visit.steps
        .filter((step) => step.is === 'handling')
        .sort((a, b) => a.start - b.start)
        .map((step) => step.animal ?? ''),
    ),
  ),
];
