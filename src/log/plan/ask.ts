import type { KitTypeId, SectionId } from '../../core/ids.js';
import { secondsUntil } from '../../core/point-of-care/kit.js';
import { animalsMet, type Instance, testedCount } from '../../core/route-plan/model/instance.js';
import { safeRho } from '../../core/route-plan/search/search.js';
import type { Round, RoundPlan, RoundSection } from '../../core/route-plan/whole-round/round-shape.js';
import { ownTeams, teamsForOwn } from '../../core/route-plan/whole-round/share.js';
import { type Said, said } from '../../core/said.js';
import type { PlannedRibbon, RibbonSettings } from '../kinds/ribbon.js';
import type { Preparation } from '../prepare/prepare.js';
import type { World } from '../views/world.js';
import { withoutPair } from './alone.js';
import { lengthOf, timedIn } from './durations.js';
import { warmFrom, warmingOf } from './kits.js';
import type { Line } from './operations.js';
import { mostRho, unitSeconds } from './settings.js';
import { buildStop, kitFor, type PlannedStop, stopsOf, withLines } from './stop.js';
import { type ShortTests, shortTests } from './supplies.js';

/** What a person chose for a plan. Instants; `endsAt` null when the shift does not end the round. */
export interface PlanChoice {
  readonly startsAt: string;
  readonly endsAt: string | null;
  /** How many people work in each team. */
  readonly people: readonly (1 | 2)[];
  readonly settings: RibbonSettings;
  /** Sections that one team does which goes nowhere else. */
  readonly ownTeam: readonly SectionId[];
}

/** What the planner is asked, with what a plan is explained by. */
export interface PlanAsk {
  readonly round: Round;
  readonly rho: number;
  readonly stops: readonly PlannedStop[];
  readonly problems: readonly Said[];
  /** Animals left without any of their tests, for want of a kit or a ready-prepared syringe. */
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
  const paired = choice.people.includes(2) ? { stops, words: [] } : withoutPair(stops);
  const supplied = withinSupplies(world, paired.stops, plan.on);
  const built = supplied.stops.map((stop) => buildStop(world, stop, timed, choice.settings));
  const teams = { teams: choice.people.length, people: [...choice.people] };
  const { sections, words: ownTeamWords } = withOwnTeams(
    built.map(({ stop }) => stop),
    choice.ownTeam,
    teams,
  );
  if (sections.length === 0) return null;
  const wanted = sections.reduce((sum, { section }) => sum + testedCount(section.litters), 0);
  const warming = warming_s(world, kitsWanted(world, supplied.stops), choice.startsAt, now);
  const shift = choice.endsAt === null ? null : inWholeUnits(secondsUntil(choice.startsAt, choice.endsAt));
  const kinds = kindsIn(sections.map((one) => one.section));
  const lengths = kinds.map((kind) => ({ kind, length: lengthOf(timed, kind) }));
  return {
    round: {
      id: 'round',
      sections,
      ...teams,
      shift,
      kitWarmUp: wanted === 0 ? null : Math.max(0, Math.ceil(warming.ready_s / unitSeconds)),
      kitGoodFor: wanted === 0 || warming.limit_s === null ? null : inWholeUnits(warming.limit_s),
    },
    rho: rhoFor(lengths.map(({ length }) => length.stretch)),
    stops,
    problems: [...built.flatMap((one) => one.problems), ...supplied.short.words, ...paired.words, ...ownTeamWords],
    untested: supplied.short.untested,
    assumed: lengths.flatMap(({ kind, length }) =>
      length.from === 'own' ? [] : [{ kind, recorded: length.recorded }],
    ),
    kits: { wanted, out: warming.out, takeOut_s: warming.takeOut_s },
  };
}

/** Marks the sections that are to have a team of their own; where there are too few teams, none, which is said. */
function withOwnTeams(
  sections: readonly RoundSection[],
  own: readonly string[],
  teams: Pick<Round, 'teams' | 'people'>,
): { readonly sections: RoundSection[]; readonly words: readonly Said[] } {
  const marked = sections.map((stop) => (own.includes(stop.section.id) ? { ...stop, ownTeam: true } : stop));
  return ownTeams({ ...teams, sections: marked }) === null
    ? { sections: [...sections], words: [said('plan.own-team', { count: teamsForOwn(marked) })] }
    : { sections: marked, words: [] };
}

/**
 * How many times its length a step may take: as long as 19 of 20 really do, but never below the factor at which no
 * window was missed in the simulation (docs/benchmarks.md), since interruptions are in no median.
 */
const rhoFor = (stretches: readonly number[]): number => Math.min(mostRho, Math.max(safeRho, ...stretches));

const inWholeUnits = (seconds: number): number => Math.max(0, Math.floor(seconds / unitSeconds));

/** The stops with the tests that there are kits and ready-prepared syringes for. */
function withinSupplies(
  world: World,
  stops: readonly PlannedStop[],
  on: Preparation['on'],
): { readonly stops: PlannedStop[]; readonly short: ShortTests } {
  const tests = (lines: PlannedStop['animals'][number]['lines']) =>
    lines.flatMap((line) => (line.action === 'test' ? [line.schedule] : []));
  const wanted = stops.flatMap(({ animals }) =>
    animals
      .map(({ animal, overdueDays, lines }) => ({ animal: animal.id, overdueDays, schedules: tests(lines) }))
      .filter(({ schedules }) => schedules.length > 0),
  );
  const short = shortTests(world, wanted, on);
  const stays = (animal: string, line: Line): boolean => line.action !== 'test' || !short.isLeft(animal, line.schedule);
  return { stops: withLines(stops, stays), short };
}

/** When the kits are warm, counted from the start: those that are out, and the others taken out in time or now. */
function warming_s(world: World, wanted: ReadonlyMap<KitTypeId, number>, startsAt: string, now: string) {
  const before_s = Math.max(0, secondsUntil(now, startsAt));
  const each = [...wanted].map(([type, count]) => {
    const { warm_s, limit_s } = warmingOf(world, [type]);
    const out = warmFrom(world, [type], now).map((warm) => warm - before_s);
    const short = out.length < count;
    const takeOut_s = short ? -Math.min(warm_s, before_s) : null;
    const last = short ? warm_s + (takeOut_s ?? 0) : (out[count - 1] ?? 0);
    return { ready_s: last, limit_s, out: Math.min(out.length, count), takeOut_s };
  });
  const limits = each.flatMap(({ limit_s }) => (limit_s === null ? [] : [limit_s]));
  const takeOut = each.flatMap(({ takeOut_s }) => (takeOut_s === null ? [] : [takeOut_s]));
  return {
    ready_s: Math.max(0, ...each.map((one) => one.ready_s)),
    limit_s: limits.length === 0 ? null : Math.min(...limits),
    out: each.reduce((sum, one) => sum + one.out, 0),
    takeOut_s: takeOut.length === 0 ? null : Math.min(...takeOut),
  };
}

/** Tests of each kit type; a test of which no kit is known is not counted. */
function kitsWanted(world: World, stops: readonly PlannedStop[]): Map<KitTypeId, number> {
  const wanted = new Map<KitTypeId, number>();
  for (const { lines } of stops.flatMap((stop) => stop.animals)) {
    for (const line of lines) {
      const type = line.action === 'test' ? kitFor(world, line.schedule)?.id : undefined;
      if (type !== undefined) wanted.set(type, (wanted.get(type) ?? 0) + 1);
    }
  }
  return wanted;
}

function kindsIn(sections: readonly Instance[]): string[] {
  const kinds = new Set(['glove-change', 'fetch']);
  for (const section of sections) {
    if (section.holders !== undefined) kinds.add('confirm');
    for (const litter of section.litters) {
      for (const animal of litter.animals) {
        for (const op of animal.ops) kinds.add(op.kind);
        if (animal.tested) kinds.add('start-test').add('read');
      }
    }
  }
  return [...kinds];
}

/**
 * A plan of one team as it is kept in the record of its round. `wishedIn`: the order that a person asked for in a section,
 * which is then kept when the rest is planned again.
 */
export function ribbonOf(
  round: Round,
  plan: RoundPlan,
  team: number,
  settings: RibbonSettings,
  wishedIn: (section: string) => readonly string[] | undefined = () => undefined,
): PlannedRibbon {
  const own = plan.teams[team]?.visits ?? [];
  return {
    unitSeconds,
    settings,
    bound: Math.min(plan.bound, plan.end),
    visits: own.map(({ section, start, inside, end, plan: { steps, end: length } }) => {
      const stop = round.sections.find((one) => one.section.id === section);
      const wished = wishedIn(section);
      return {
        ...(wished === undefined ? {} : { wished: [...wished] }),
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
  ...new Set(ribbon.visits.flatMap((visit) => animalsMet(visit.steps))),
];
