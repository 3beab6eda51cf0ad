import { expect, it } from 'vitest';
import { z } from 'zod';
import { atMost } from '../../src/core/route-plan/model/budget.js';
import { Instance, type Step, stepName } from '../../src/core/route-plan/model/instance.js';
import { problemOf } from '../../src/core/route-plan/model/problem.js';
import { type Bounds, boundsOf } from '../../src/core/route-plan/search/bound.js';
import { type Plan, planSection } from '../../src/core/route-plan/search/search.js';
import { peakRunning } from '../../src/core/route-plan/search/steps.js';
import { planRound } from '../../src/core/route-plan/whole-round/round.js';
import { Round } from '../../src/core/route-plan/whole-round/round-shape.js';
import { planTeams } from '../../src/core/route-plan/whole-round/teams.js';
import { type ByHand, byHand } from '../support/by-hand/people.js';
import { checkPlan, type Timed, type Verdict } from '../support/plan-checker.js';
import { type Family, families, madeSection } from '../support/plan-families.js';
import { loadPart, runPart } from './schema.js';

// The small sections stand in the cases of the first check; the other checks name them.
const Given = z.object({ family: z.string(), seed: z.number().nullable(), section: z.unknown() });
const given = loadPart('planning')
  .groups.flatMap((group) => group.cases)
  .filter((one) => one.check === 'shortest')
  .map((one) => Given.parse(one.given));
const sections = new Map(given.map((one) => [Instance.parse(one.section).id, Instance.parse(one.section)]));
const sectionOf = (id: string): Instance => {
  const section = sections.get(id);
  if (section === undefined) throw new Error(`no section ${id}`);
  return section;
};
const scheduled = (steps: readonly Step[]): Timed[] =>
  steps.map((step) => ({ op: stepName(step), start: step.start, duration: step.duration }));
const verdict = (section: Instance, plan: Plan): Verdict => checkPlan(section, scheduled(plan.steps));

const plans = new Map<string, Plan>();
const planOf = (section: Instance): Plan => {
  const plan = plans.get(section.id) ?? planSection(section, { rho: 1 });
  if (plan === null) throw new Error(`no plan for ${section.id}`);
  plans.set(section.id, plan);
  return plan;
};

runPart('planning', {
  shortest: ({ section }: { section: unknown }) => {
    const instance = Instance.parse(section);
    const plan = planOf(instance);
    return { end: plan.end, faults: verdict(instance, plan).faults };
  },
  witness: ({ section, schedule }: { section: string; schedule: Timed[] }) => {
    const { faults, end, spread } = checkPlan(sectionOf(section), schedule);
    const tests = schedule.filter((line) => /:(start-test|read)$/.test(line.op));
    const steps = tests.map(({ op, start, duration }): Step => {
      const is = op.endsWith(':read') ? 'reading' : 'start-test';
      return { is, litter: '', animal: op, kind: is, op: null, start, duration };
    });
    return { faults, end, spread, peakRunning: peakRunning(steps) };
  },
  bounds: ({ section }: { section: string }) => {
    const bounds: Bounds = boundsOf(problemOf(sectionOf(section), 1));
    return {
      work: bounds.work,
      tail: Math.max(bounds.tail, bounds.kits),
      fill: bounds.fill,
      limit: bounds.limit,
    };
  },
  calmest: ({ section, spread }: { section: string; spread: number }) => ({
    below: planOf(sectionOf(section)).spread < spread,
  }),
  'by-hand': ({ section }: { section: string }) => {
    const [careful, answers, waits] = (['careful', 'answers-timers', 'waits-for-each'] as const).map(
      (person): ByHand => byHand(sectionOf(section), person),
    );
    return {
      careful: { end: careful?.end, spread: careful?.spread, feasible: careful?.feasible },
      answersTimers: { end: answers?.end, missed: answers?.missed },
      waitsForEach: { end: waits?.end, feasible: waits?.feasible },
    };
  },
  round: (given: { sections: string[]; don: number; doff: number; cartDisinfection: number }) => {
    const { don, doff, cartDisinfection } = given;
    const stops = given.sections.map((id) => ({ section: sectionOf(id), don, doff, cartDisinfection }));
    const plan = planRound(Round.parse({ sections: stops }), { rho: 1 });
    const visits = plan?.teams.flatMap((team) => team.visits) ?? [];
    return {
      end: plan?.end,
      faults: visits.flatMap((visit) => verdict(sectionOf(visit.section), visit.plan).faults),
    };
  },
  'two-teams': ({ section, teams }: { section: string; teams: number }) => {
    const whole = sectionOf(section);
    const plan = planTeams(whole, teams, { rho: 1 });
    const faults = plan?.teams.flatMap((team) => {
      const litters = whole.litters.filter((litter) => team.litters.includes(litter.id));
      return team.plan === null ? [] : verdict({ ...whole, litters }, team.plan).faults;
    });
    return { end: plan?.end, faults };
  },
});

it('keeps every lower bound at or below the proven end. Verifies: PLAN-R3', () => {
  for (const section of sections.values()) expect(planOf(section).bounds.best).toBeLessThanOrEqual(planOf(section).end);
});

it('keeps animals waiting at most 2 units more than the proven least, in nine of ten. Verifies: PLAN-R4', () => {
  const known = loadPart('planning')
    .groups.flatMap((group) => group.cases)
    .filter((one) => one.check === 'calmest')
    .map((one) => z.object({ section: z.string(), spread: z.number() }).parse(one.given));
  const near = known.filter((one) => planOf(sectionOf(one.section)).spread <= one.spread + 2);
  expect(known.length).toBeGreaterThan(40);
  expect(near.length / known.length).toBeGreaterThanOrEqual(0.9);
});

it('makes plans for operations of double length that the checker accepts. Verifies: PLAN-R8', () => {
  for (const section of sections.values()) {
    const plan = planSection(section, { rho: 2, keepGoing: atMost(150) });
    if (plan === null) throw new Error(`no plan for ${section.id}`);
    expect({ id: section.id, faults: verdict(section, plan).faults }).toEqual({ id: section.id, faults: [] });
    expect(plan.end).toBeGreaterThanOrEqual(planOf(section).end);
  }
});

it('makes the printed sections anew from their seeds, so that fresh ones are of the same kind', () => {
  const made = given.filter(({ family, seed }) => seed !== null && (families as readonly string[]).includes(family));
  expect(made.length).toBeGreaterThan(50);
  for (const { family, seed, section } of made) {
    const printed = Instance.parse(section);
    const tests = printed.litters.flatMap((litter) => litter.animals).filter((animal) => animal.tested).length;
    expect({ ...madeSection(family as Family, tests, seed ?? 0), id: printed.id }).toEqual(printed);
  }
});
