import { z } from 'zod';
import { atMost } from './budget.js';
import { Instance, type PlanLitter, testedCount } from './instance.js';
import { type Plan, planSection, type Search } from './search.js';
import { shareSections } from './share.js';

const units = z.number().int().min(0).max(20_000);

/** One stop of the round: a section with what it costs to get in and out of it. */
export const RoundSection = z.strictObject({
  section: Instance,
  /** Putting on and taking off what the section asks for, and wiping down the cart. */
  don: units,
  doff: units,
  cartDisinfection: units,
});
export type RoundSection = z.infer<typeof RoundSection>;

/** A whole round: sections from clean to dirty, visited one way. Ids of animals and litters are unique over all. */
export const Round = z.strictObject({
  id: z.string().min(1).default('round'),
  sections: z.array(RoundSection).min(1).max(40),
  teams: z.number().int().min(1).max(12).default(1),
  /** Length of the shift; null when it does not end the round. */
  shift: units.nullable().default(null),
  /** Time for a kit from the fridge to be warm, all of them taken out as the round starts; null: all are warm. */
  kitWarmUp: units.nullable().default(null),
  /** Longest time out of the fridge; null: no limit. */
  kitGoodFor: units.nullable().default(null),
});
export type Round = z.infer<typeof Round>;

/** One section as one team does it; `start` and `end` count from the start of the round, gowning included. */
export interface Visit {
  readonly section: string;
  readonly start: number;
  /** Start of the plan itself: after putting on. */
  readonly inside: number;
  readonly end: number;
  readonly litters: readonly string[];
  readonly plan: Plan;
}

export interface TeamRound {
  readonly visits: readonly Visit[];
  readonly end: number;
}

export interface RoundPlan {
  readonly teams: readonly TeamRound[];
  readonly end: number;
  /** Nobody can be done earlier than this: the work of all over the teams, or the longest single litter. */
  readonly bound: number;
}

/** A litter of a section, as it is given to a team. */
export interface Share {
  readonly at: number;
  readonly litter: PlanLitter;
}

/**
 * Plan a whole round: the litters of all sections over the teams, each team's sections in the order given (clean to
 * dirty), every test read before its section is left. Null when blood would have to wait for a kit longer than it may.
 */
export function planRound(round: Round, search: Search = {}): RoundPlan | null {
  const all = round.sections.flatMap((one, at) => one.section.litters.map((litter): Share => ({ at, litter })));
  if (round.teams === 1) {
    const teams = planInTurn(round, [all], search);
    const [team] = teams ?? [];
    if (teams === null || team === undefined) return null;
    const slack = team.visits.reduce((sum, { plan }) => sum + plan.end - plan.bounds.best, 0);
    return { teams, end: team.end, bound: team.end - slack };
  }
  return shareSections(round, all, search);
}

/** Passes over the length of a plan that every section gets before any gets more. */
const quickPasses = 2;

/** Plan every team's sections quickly, then, the longest team first, as well as `keepGoing` lets. */
export function planInTurn(round: Round, heaps: readonly (readonly Share[])[], search: Search): TeamRound[] | null {
  const keepGoing = search.keepGoing ?? (() => true);
  const teams: TeamRound[] = [];
  for (const heap of heaps) {
    const team = planVisits(round, heap, search, quickPasses);
    if (team === null) return null;
    teams.push(team);
  }
  const order = teams.map((_, i) => i).sort((a, b) => (teams[b]?.end ?? 0) - (teams[a]?.end ?? 0));
  for (const i of order) {
    if (!keepGoing() || teams[i]?.visits.every((visit) => visit.plan.shortest && visit.plan.spread === 0)) continue;
    const again = planVisits(round, heaps[i] ?? [], search, Number.MAX_SAFE_INTEGER);
    if (again !== null && again.end <= (teams[i]?.end ?? 0)) teams[i] = again;
  }
  return teams;
}

/** The sections of one team one after another; a later section finds the kits warmer. */
function planVisits(round: Round, shares: readonly Share[], search: Search, passes: number): TeamRound | null {
  const visits: Visit[] = [];
  let time = 0;
  for (const [at, stop] of round.sections.entries()) {
    const litters = shares.filter((share) => share.at === at).map((share) => share.litter);
    if (litters.length === 0) continue;
    const inside = time + stop.don;
    const section = withKits(round, stop.section, litters, inside);
    const asks = passes * stepCount(section);
    const keepGoing = atMost(asks, search.keepGoing ?? (() => true));
    const plan = planSection(section, { ...search, keepGoing, onBetter: () => undefined });
    if (plan === null) return null;
    const end = inside + plan.end + stop.doff + stop.cartDisinfection;
    visits.push({ section: stop.section.id, start: time, inside, end, litters: litters.map((one) => one.id), plan });
    time = end;
  }
  return { visits, end: time };
}

const stepCount = (section: Instance): number =>
  section.litters.reduce(
    (sum, one) => sum + 1 + one.animals.reduce((ops, animal) => ops + animal.ops.length + 2, 0),
    0,
  );

/** The part of a section, with its kits as warm as they are when the team comes in. */
export function withKits(round: Round, section: Instance, litters: readonly PlanLitter[], inside: number): Instance {
  const tests = testedCount(litters);
  const own = [...(section.kitReadyAt ?? [])].sort((a, b) => a - b).slice(0, tests);
  const warm = round.kitWarmUp === null ? null : Array<number>(tests).fill(Math.max(0, round.kitWarmUp - inside));
  const ready = section.kitReadyAt === null ? warm : own.map((one, k) => Math.max(one, warm?.[k] ?? 0));
  return { ...section, litters: [...litters], kitReadyAt: ready };
}

/** When each kit has to come out of the fridge, from the start of the round, so that it is warm and not out too long. */
export function kitsOut(
  round: Round,
  plan: RoundPlan,
): { readonly animal: string; readonly start: number; readonly out: number }[] {
  const warmUp = round.kitWarmUp ?? 0;
  return plan.teams
    .flatMap((team) =>
      team.visits.flatMap((visit) =>
        visit.plan.steps
          .filter((step) => step.is === 'start-test')
          .map((step) => {
            const start = visit.inside + step.start;
            // Late enough for the limit, and early enough to stay warm if the team comes sooner than planned.
            const margin = round.kitGoodFor === null ? start : Math.max(0, round.kitGoodFor - warmUp) / 2;
            const wait = start > (round.kitGoodFor ?? start) ? start - warmUp - Math.floor(margin) : 0;
            return { animal: step.animal ?? '', start, out: Math.max(0, wait) };
          }),
      ),
    )
    .sort((a, b) => a.start - b.start);
}
