import { planInOrder, stepsInOrder } from './in-order.js';
import type { Instance, Step } from './instance.js';
import { type Plan, planSection, type Search } from './search.js';

/** An order that somebody asked for, fitted to the animals that are there now. */
export interface WishedOrder {
  readonly order: readonly string[];
  /** Animals of the wish that are not in the section any more. */
  readonly gone: readonly string[];
  /** Animals that the wish does not name: they stand with their litter, else last. */
  readonly added: readonly string[];
  /** A litter that the wish would part was put together where its first animal stands. */
  readonly parted: boolean;
}

/** As much of a wish as fits the section; `usual` says in which order unnamed animals come. */
export function wishedOrder(
  instance: Pick<Instance, 'litters'>,
  wished: readonly string[],
  usual: readonly string[] = [],
): WishedOrder {
  const litterOf = new Map(
    instance.litters.flatMap((litter) => litter.animals.map((one) => [one.id, litter.id] as const)),
  );
  const known = [...new Set(wished)].filter((animal) => litterOf.has(animal));
  const place = (animal: string): number => {
    const at = usual.indexOf(animal);
    return at < 0 ? usual.length : at;
  };
  const added = [...litterOf.keys()].filter((animal) => !known.includes(animal)).sort((a, b) => place(a) - place(b));
  const together = (animals: readonly string[]): string[] => {
    const litters = new Set(animals.map((animal) => litterOf.get(animal)));
    return [...litters].flatMap((litter) => animals.filter((animal) => litterOf.get(animal) === litter));
  };
  return {
    order: together([...known, ...added]),
    gone: [...new Set(wished)].filter((animal) => !litterOf.has(animal)),
    added,
    parted: together(known).join(' ') !== known.join(' '),
  };
}

/** A plan with what of a wish it keeps. */
export interface KeepingPlan extends WishedOrder {
  readonly plan: Plan;
  /** False when the order would break a rule and the shortest plan stands in its place. */
  readonly kept: boolean;
  /** Animals that come later than asked: a running test has to be read before them. */
  readonly waits: readonly string[];
}

/**
 * The section planned in the order that somebody asked for, as far as the rules allow, whatever another order would
 * save. Null when there is no plan at all.
 */
export function planKeeping(instance: Instance, wished: readonly string[], search: Search = {}): KeepingPlan | null {
  const fitted = wishedOrder(instance, wished);
  const made = planInOrder(instance, fitted.order, search);
  const plan = made.ok ? made.value : planSection(instance, search);
  if (plan === null) return null;
  return { ...fitted, plan, kept: made.ok, waits: made.ok ? laterThan(fitted.order, plan.steps) : [] };
}

/** The steps of an order, for following it as far as a state lets. */
export const stepsWished = (instance: Instance, wished: readonly string[], previous: readonly Step[]): Step[] =>
  stepsInOrder(instance, wishedOrder(instance, wished, handled(previous)).order);

const handled = (steps: readonly Step[]): string[] => [
  ...new Set(steps.flatMap((step) => (step.is === 'handling' && step.animal !== null ? [step.animal] : []))),
];

function laterThan(order: readonly string[], steps: readonly Step[]): string[] {
  const made = handled([...steps].sort((a, b) => a.start - b.start));
  const at = (animal: string): number => made.indexOf(animal);
  return order.filter((one, i) => order.slice(i + 1).some((next) => at(next) < at(one)));
}
