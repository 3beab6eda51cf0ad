import { animalsMet, littersOf, type PlanLitter } from '../../core/route-plan/model/instance.js';
import { planInOrder } from '../../core/route-plan/search/in-order.js';
import { safeRho } from '../../core/route-plan/search/search.js';
import { laterThan } from '../../core/route-plan/search/wished.js';
import { peopleIn, type RoundPlan, type TeamRound, type Visit } from '../../core/route-plan/whole-round/round-shape.js';
import { sectionFor } from '../../core/route-plan/whole-round/visits.js';
import { no, type Outcome, ok } from '../../core/said.js';
import type { PlanAsk } from '../../log/plan/ask.js';

/** Orders that people asked for, by team and section. */
export type Orders = ReadonlyMap<string, readonly string[]>;

export const orderKey = (team: number, section: string): string => `${team} ${section}`;

/**
 * The plan with the orders that people asked for. What comes later is moved along; an order that breaks a rule is
 * refused with the rule's name and the plan stays as it is.
 */
export function withOrders(ask: PlanAsk, plan: RoundPlan, orders: Orders): Outcome<RoundPlan> {
  if (orders.size === 0) return ok(plan);
  const teams: TeamRound[] = [];
  for (const [number, team] of plan.teams.entries()) {
    let time = 0;
    const visits: Visit[] = [];
    for (const visit of team.visits) {
      const wanted = orders.get(orderKey(number, visit.section));
      const moved = moveTo(ask, peopleIn(ask.round, number), visit, time, wanted);
      if (!moved.ok) return moved;
      visits.push(moved.value);
      time = moved.value.end;
    }
    teams.push({ visits, end: time });
  }
  return ok({ ...plan, teams, end: Math.max(0, ...teams.map((team) => team.end)) });
}

/** One more wish on top of others; refused, too, when all it asks for would have to wait and nothing would change. */
export function withWish(
  ask: PlanAsk,
  plan: RoundPlan,
  orders: Orders,
  wish: { readonly team: number; readonly section: string; readonly order: readonly string[] },
): Outcome<RoundPlan> {
  const { team, section, order } = wish;
  const now = withOrders(ask, plan, orders);
  const made = withOrders(ask, plan, new Map(orders).set(orderKey(team, section), order));
  if (!now.ok || !made.ok) return made;
  const visitIn = (of: RoundPlan) => of.teams[team]?.visits.find((visit) => visit.section === section)?.plan;
  const [before, after] = [visitIn(now.value), visitIn(made.value)];
  if (before === undefined || after === undefined) return made;
  const same = animalsMet(before.steps).join(' ') === animalsMet(after.steps).join(' ');
  const [waits] = laterThan(order, after.steps);
  return same && waits !== undefined ? no('ribbon.order.would-wait', { animal: waits }) : made;
}

function moveTo(
  ask: PlanAsk,
  people: 1 | 2,
  visit: Visit,
  start: number,
  wanted: readonly string[] | undefined,
): Outcome<Visit> {
  const stop = ask.round.sections.find((one) => one.section.id === visit.section);
  if (stop === undefined || (wanted === undefined && start === visit.start)) return ok(visit);
  const inside = start + stop.don;
  const own = littersWith(ask, visit.section, animalsMet(visit.plan.steps));
  const section = sectionFor(ask.round, people, stop.section, own, inside);
  // Kits that would be colder than planned ask for a new plan of the same order; warmer ones change nothing.
  const same = wanted === undefined && inside >= visit.inside;
  const made = same
    ? ok(visit.plan)
    : planInOrder(section, wanted ?? animalsMet(visit.plan.steps), { rho: ask.rho ?? safeRho });
  if (!made.ok) return made;
  const end = inside + made.value.end + stop.doff + stop.cartDisinfection;
  return ok({ ...visit, start, inside, end, plan: made.value });
}

/** The litters of a section, with those animals only that a team sees there. */
export const littersWith = (ask: PlanAsk, section: string, animals: readonly string[]): PlanLitter[] =>
  (ask.round.sections.find((one) => one.section.id === section)?.section.litters ?? []).flatMap((litter) => {
    const there = litter.animals.filter((one) => animals.includes(one.id));
    return there.length === 0 ? [] : [{ ...litter, animals: there }];
  });

/** The litter of each animal of a plan as the planner knows it; an animal without one is its own. */
export function littersIn(ask: PlanAsk): (animal: string) => string {
  const litters = new Map(ask.round.sections.flatMap(({ section }) => [...littersOf(section)]));
  return (animal) => litters.get(animal) ?? animal;
}
