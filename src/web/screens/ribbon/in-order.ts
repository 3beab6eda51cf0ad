import { planInOrder } from '../../../core/round/plan/in-order.js';
import type { RoundPlan, TeamRound, Visit } from '../../../core/round/plan/round-shape.js';
import { type Plan, safeRho } from '../../../core/round/plan/search.js';
import { withKits } from '../../../core/round/plan/visits.js';
import { no, type Outcome, ok } from '../../../core/said.js';
import type { PlanAsk } from '../../../log/views/plan/ask.js';

/** Orders that people asked for, by team and section. */
export type Orders = ReadonlyMap<string, readonly string[]>;

export const orderKey = (team: number, section: string): string => `${team} ${section}`;

/** Animals of a visit in the order in which they are met. */
export const orderIn = (plan: Pick<Plan, 'steps'>): string[] => [
  ...new Set(
    plan.steps
      .filter((step) => step.is === 'handling')
      .sort((a, b) => a.start - b.start)
      .map((step) => step.animal ?? ''),
  ),
];

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
      const moved = moveTo(ask, visit, time, wanted);
      if (!moved.ok) return moved;
      visits.push(moved.value);
      time = moved.value.end;
    }
    teams.push({ visits, end: time });
  }
  return ok({ ...plan, teams, end: Math.max(0, ...teams.map((team) => team.end)) });
}

/** The animals that come later than asked: each would have had to wait until a running test is read. */
export const waitingIn = (plan: Pick<Plan, 'steps'>, wanted: readonly string[]): string[] => {
  const made = orderIn(plan);
  return wanted.filter((one, i) => wanted.slice(i + 1).some((next) => made.indexOf(next) < made.indexOf(one)));
};

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
  const same = orderIn(before).join(' ') === orderIn(after).join(' ');
  const [waits] = waitingIn(after, order);
  return same && waits !== undefined ? no('ribbon.order.would-wait', { animal: waits }) : made;
}

function moveTo(ask: PlanAsk, visit: Visit, start: number, wanted: readonly string[] | undefined): Outcome<Visit> {
  const stop = ask.round.sections.find((one) => one.section.id === visit.section);
  if (stop === undefined || (wanted === undefined && start === visit.start)) return ok(visit);
  const inside = start + stop.don;
  const own = stop.section.litters.flatMap((litter) => {
    const animals = litter.animals.filter((animal) => visit.plan.steps.some((step) => step.animal === animal.id));
    return animals.length === 0 ? [] : [{ ...litter, animals }];
  });
  const section = withKits(ask.round, stop.section, own, inside);
  // Kits that would be colder than planned ask for a new plan of the same order; warmer ones change nothing.
  const same = wanted === undefined && inside >= visit.inside;
  const made = same ? ok(visit.plan) : planInOrder(section, wanted ?? orderIn(visit.plan), { rho: ask.rho ?? safeRho });
  if (!made.ok) return made;
  const end = inside + made.value.end + stop.doff + stop.cartDisinfection;
  return ok({ ...visit, start, inside, end, plan: made.value });
}
