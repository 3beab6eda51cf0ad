import { animalsMet } from '../../core/route-plan/model/instance.js';
import { laterThan, wishedOrder } from '../../core/route-plan/search/wished.js';
import type { RoundPlan } from '../../core/route-plan/whole-round/round-shape.js';
import { type Said, said } from '../../core/said.js';
import type { PlanAsk } from '../../log/plan/ask.js';
import { littersWith, type Orders, orderKey, withOrders } from './in-order.js';

/** A plan with as much of people's orders as the rules allow, and a sentence for each thing that could not be kept. */
export interface Kept {
  readonly plan: RoundPlan;
  readonly orders: Orders;
  readonly lost: readonly Said[];
}

const sectionOfKey = (key: string): string => key.slice(key.indexOf(' ') + 1);

/**
 * Lays the orders that people asked for over a plan that was made anew. Whoever is new stands with the litter, else
 * last; whoever is gone is left out; a section whose order would break a rule has the planner's.
 */
export function keepOrders(ask: PlanAsk, plan: RoundPlan, wished: Orders): Kept {
  let [kept, orders]: [RoundPlan, Orders] = [plan, new Map()];
  const lost: Said[] = [];
  const names = (list: readonly string[]) => ({ list: [...list] });
  const inPlan = new Set(plan.teams.flatMap((team) => team.visits.flatMap((visit) => animalsMet(visit.plan.steps))));
  const gone = [...wished.values()].flat().filter((animal) => !inPlan.has(animal));
  if (gone.length > 0) lost.push(said('ribbon.order.gone', { animals: names(gone), count: gone.length }));
  for (const [number, team] of plan.teams.entries()) {
    for (const { section, plan: own } of team.visits) {
      // An animal may have gone to another team since; what was said about it comes along.
      const told = [...wished].filter(([key]) => sectionOfKey(key) === section).flatMap(([, order]) => order);
      const usual = animalsMet(own.steps);
      if (!told.some((animal) => usual.includes(animal))) continue;
      const { order: wanted, added, parted } = wishedOrder({ litters: littersWith(ask, section, usual) }, told, usual);
      const tried = new Map(orders).set(orderKey(number, section), wanted);
      const made = withOrders(ask, plan, tried);
      if (!made.ok) {
        lost.push(said('ribbon.order.not-kept', { section }), made.why);
        continue;
      }
      [kept, orders] = [made.value, tried];
      const visit = kept.teams[number]?.visits.find((one) => one.section === section);
      const waits = visit === undefined ? [] : laterThan(wanted, visit.plan.steps);
      if (waits.length > 0) lost.push(said('ribbon.order.waits', { animals: names(waits), count: waits.length }));
      if (parted) lost.push(said('ribbon.order.together', { section }));
      if (added.length > 0)
        lost.push(said('ribbon.order.added', { section, animals: names(added), count: added.length }));
    }
  }
  return { plan: kept, orders, lost };
}
