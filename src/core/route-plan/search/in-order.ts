import { no, type Outcome, ok } from '../../said.js';
import { type Instance, kitCount, littersOf, type Step } from '../model/instance.js';
import { problemOf } from '../model/problem.js';
import { boundsOf } from './bound.js';
import { type Plan, planOf, type Search, safeRho } from './search.js';
import { walk } from './walk.js';

/**
 * A plan that handles the animals in the order somebody wants, tests started at once and read in time. An order that
 * breaks a rule is refused with the rule's name; animals that are not named come last, in the order of the section.
 */
export function planInOrder(instance: Instance, wanted: readonly string[], search: Search = {}): Outcome<Plan> {
  const litterOf = littersOf(instance);
  const unknown = wanted.find((animal) => !litterOf.has(animal));
  if (unknown !== undefined) return no('plan.order.unknown', { animal: unknown });
  const twice = wanted.find((animal, i) => wanted.indexOf(animal) !== i);
  if (twice !== undefined) return no('plan.order.twice', { animal: twice });
  const all = [...wanted, ...withoutName(instance, wanted, litterOf)];
  for (const [i, animal] of all.entries()) {
    const before = all.slice(0, i);
    const litter = litterOf.get(animal) ?? '';
    const other = all[i - 1];
    if (other === undefined || litterOf.get(other) === litter) continue;
    if (before.some((one) => litterOf.get(one) === litter))
      return no('plan.order.litter-parted', { animal, litter, other });
  }
  const p = problemOf(instance, search.rho ?? safeRho, search.state, search.reserve ?? 0);
  const walked = walk(p, stepsInOrder(instance, all));
  return walked === null ? no('plan.none') : ok(planOf(p, walked.node, boundsOf(p)));
}

/** The rest of a litter that has been named stays with it. */
function withoutName(instance: Instance, wanted: readonly string[], litterOf: ReadonlyMap<string, string>): string[] {
  const last = litterOf.get(wanted.at(-1) ?? '');
  const rest = instance.litters
    .flatMap((litter) => litter.animals.map((one) => one.id))
    .filter((id) => !wanted.includes(id));
  return [...rest.filter((id) => litterOf.get(id) === last), ...rest.filter((id) => litterOf.get(id) !== last)];
}

/** The steps of animals one after another, each test started right after its draw; without times. */
export function stepsInOrder(instance: Instance, order: readonly string[]): Step[] {
  const litterOf = littersOf(instance);
  const animals = new Map(instance.litters.flatMap((litter) => litter.animals.map((one) => [one.id, one] as const)));
  const steps: Step[] = [];
  let open = '';
  const add = (is: Step['is'], animal: string | null, kind: string, op: number | null): void => {
    steps.push({ is, litter: open, animal, kind, op, start: 0, duration: 0 });
  };
  for (const id of order) {
    const litter = litterOf.get(id) ?? '';
    if (litter !== open) {
      open = litter;
      add('gloves', null, 'glove-change', null);
    }
    const animal = animals.get(id);
    for (const [op, one] of (animal?.ops ?? []).entries()) {
      add('handling', id, one.kind, op);
      const kits = op === 0 && animal !== undefined ? kitCount(animal) : 0;
      for (let kit = 0; kit < kits; kit += 1) add('start-test', id, 'start-test', null);
    }
  }
  return steps;
}
