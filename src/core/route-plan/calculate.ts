import { z } from 'zod';
import { no, type Outcome, ok, type Said, said } from '../said.js';
import { explainPlan, inMinutes } from './explain/explain.js';
import { savings } from './explain/savings.js';
import { atMost } from './model/budget.js';
import { Instance, type Step, stepName } from './model/instance.js';
import { RunState, stateFaults } from './model/run-state.js';
import type { Bounds } from './search/bound.js';
import { type Plan, planSection, type Search, safeRho } from './search/search.js';
import { needingTwo } from './whole-round/round.js';
import { Round } from './whole-round/round-shape.js';
import { ownTeams, teamsForOwn } from './whole-round/share.js';
import { planShift } from './whole-round/shift.js';

/** One section with what planning it needs; `rho` is how many times its length an operation may take. */
const SectionInput = z.strictObject({
  section: Instance,
  rho: z.number().min(1).max(4).default(safeRho),
  state: RunState.optional(),
});
const RoundInput = z.strictObject({ round: Round, rho: z.number().min(1).max(4).default(safeRho) });

/** A plan as JSON. Times in units from the start; `trace` explains it. */
export interface PlanOutput {
  readonly of: 'section' | 'round';
  readonly end: number;
  readonly end_minutes: number;
  /** No plan can end earlier. */
  readonly bound: number;
  readonly bounds: Bounds | null;
  readonly visits: readonly {
    readonly team: number;
    readonly section: string;
    /** Start of its plan, from the start of the round. */
    readonly inside: number;
    readonly steps: readonly {
      readonly op: string;
      readonly start: number;
      readonly duration: number;
      /** 2: treater and holder both. */
      readonly people: 1 | 2;
      /** When a holder sets out for the animal, where holders are counted apart. */
      readonly fetch_from?: number;
    }[];
    readonly spread: number;
    readonly peak_running: number;
    readonly shortest: boolean;
  }[];
  readonly left: readonly { readonly animal: string; readonly section: string; readonly needs_minutes: number }[];
  readonly trace: readonly Said[];
}

/** Asks of the search without a clock: enough for the sizes of one section, and the same plan on every machine. */
const usualAsks = 4000;

/**
 * The `plan` calculator: a section, a section with its state, or a whole round, as JSON, to its plan, its bound and
 * the reasons; or the sentence why it cannot be planned. `keepGoing` ends the search; the caller has the clock.
 */
export function planFromJson(input: unknown, keepGoing: () => boolean = atMost(usualAsks)): Outcome<PlanOutput> {
  const has = (name: string): boolean => typeof input === 'object' && input !== null && name in input;
  if (has('sections') || has('round')) {
    const parsed = RoundInput.safeParse(has('round') ? input : { round: input });
    if (!parsed.success) return wrong(parsed.error, has('round') ? [] : ['round']);
    return planWhole(parsed.data.round, { rho: parsed.data.rho, keepGoing });
  }
  const parsed = SectionInput.safeParse(has('section') ? input : { section: input });
  if (!parsed.success) return wrong(parsed.error, has('section') ? [] : ['section']);
  const { section, rho, state } = parsed.data;
  const [fault] = state === undefined ? [] : stateFaults(section, state);
  if (fault !== undefined) return no('plan.input.state', { animal: fault });
  return planOne(section, { rho, keepGoing, ...(state === undefined ? {} : { state }) });
}

function planOne(section: Instance, search: Search): Outcome<PlanOutput> {
  const plan = planSection(section, search);
  if (plan === null) return no('plan.none');
  const what = search.state === undefined ? savings(section, plan, { ...search, keepGoing: () => false }) : [];
  return ok({
    of: 'section',
    end: plan.end,
    end_minutes: inMinutes(plan.end, section.unitSeconds),
    bound: plan.bounds.best,
    bounds: plan.bounds,
    visits: [visitOf(0, section.id, 0, plan)],
    left: [],
    trace: [...explainPlan(section, plan), ...what.filter((one) => one.saves > 0).map((one) => one.words)],
  });
}

function planWhole(round: Round, search: Search): Outcome<PlanOutput> {
  const [animal] = needingTwo(round);
  if (animal !== undefined) return no('plan.needs-two', { animal });
  if (ownTeams(round) === null) return no('plan.own-team', { count: teamsForOwn(round.sections) });
  const { plan, left } = planShift(round, search);
  if (plan === null) return no(left.length > 0 ? 'plan.shift-too-short' : 'plan.none');
  const unitSeconds = round.sections[0]?.section.unitSeconds ?? 30;
  const minutes = (units: number): number => inMinutes(units, unitSeconds);
  const sections = new Map(round.sections.map((stop) => [stop.section.id, stop.section]));
  const visits = plan.teams.flatMap((team, number) => team.visits.map((visit) => ({ ...visit, team: number })));
  return ok({
    of: 'round',
    end: plan.end,
    end_minutes: minutes(plan.end),
    bound: plan.bound,
    bounds: null,
    visits: visits.map((visit) => visitOf(visit.team, visit.section, visit.inside, visit.plan)),
    left: left.map(({ animal, section, needs }) => ({ animal, section, needs_minutes: minutes(needs) })),
    trace: [
      ...visits.flatMap(({ section, plan: own }) => {
        const known = sections.get(section);
        return known === undefined ? [] : [said('plan.in-section', { section }), ...explainPlan(known, own)];
      }),
      ...left.map((one) => leftInWords(one.animal, one.overdueDays, minutes(one.needs))),
    ],
  });
}

/** Who is left when the shift ends, since when overdue, and what it would need. */
export const leftInWords = (animal: string, overdueDays: number, minutes: number): Said =>
  overdueDays > 0
    ? said('plan.left.overdue', { animal, days: overdueDays, minutes })
    : said('plan.left.due', { animal, minutes });

const visitOf = (team: number, section: string, inside: number, plan: Plan): PlanOutput['visits'][number] => ({
  team: team + 1,
  section,
  inside,
  steps: plan.steps.map((step: Step) => ({
    op: stepName(step),
    start: step.start,
    duration: step.duration,
    people: step.people ?? 1,
    ...(step.fetchFrom === undefined ? {} : { fetch_from: step.fetchFrom }),
  })),
  spread: plan.spread,
  peak_running: plan.peakRunning,
  shortest: plan.shortest,
});

/** The first thing that is wrong, with its place in the caller's own words. */
function wrong(error: z.ZodError, wrapped: readonly string[]): Outcome<never> {
  const [issue] = error.issues;
  const path = (issue?.path ?? []).map(String).slice(wrapped.length);
  return no('plan.input', { where: path.length === 0 ? 'the whole' : path.join(' '), what: issue?.message ?? '' });
}
