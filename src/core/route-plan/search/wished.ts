import { animalsMet, type Instance, littersOf, type Step } from '../model/instance.js';
import { stepsInOrder } from './in-order.js';

/** An order that somebody asked for, fitted to the animals that are there now. */
export interface WishedOrder {
  readonly order: readonly string[];
  /** Animals that the wish does not name: they stand with their litter, else last. */
  readonly added: readonly string[];
  /** A litter that the wish would part was put together where its first animal stands. */
  readonly parted: boolean;
}

/** As much of a wish as fits the section; `usual` says in which order unnamed animals come. Who is gone is left out. */
export function wishedOrder(
  instance: Pick<Instance, 'litters'>,
  wished: readonly string[],
  usual: readonly string[] = [],
): WishedOrder {
  const litterOf = littersOf(instance);
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
    added,
    parted: together(known).join(' ') !== known.join(' '),
  };
}

/** The steps of an order, for following it as far as a state lets. */
export const stepsWished = (instance: Instance, wished: readonly string[], previous: readonly Step[]): Step[] =>
  stepsInOrder(instance, wishedOrder(instance, wished, animalsMet(previous)).order);

/** Animals of an order that come later than asked: a running test has to be read before them. */
export function laterThan(order: readonly string[], steps: readonly Step[]): string[] {
  const made = animalsMet(steps);
  const at = (animal: string): number => made.indexOf(animal);
  return order.filter((one, i) => order.slice(i + 1).some((next) => at(next) < at(one)));
}
