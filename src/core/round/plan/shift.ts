import type { Instance } from './instance.js';
import { planRound } from './round.js';
import type { Round, RoundPlan } from './round-shape.js';
import type { Search } from './search.js';

export interface LeftOver {
  readonly animal: string;
  readonly section: string;
  readonly overdueDays: number;
  /** How much longer the shift would have to be for this animal too. */
  readonly needs: number;
}

export interface ShiftPlan {
  readonly plan: RoundPlan | null;
  readonly left: readonly LeftOver[];
}

/** Single animals that are tried again after the cut, so that a short one still fits in. */
const mostSecondTries = 12;

/**
 * A round that ends with the shift. If not all fits, the most overdue come first (equal ones in the order of the round)
 * and the rest is left, each with the time it would need. Without an end of the shift nothing is left.
 */
export function planShift(round: Round, search: Search = {}): ShiftPlan {
  const { shift } = round;
  const whole = planRound(round, search);
  if (shift === null || (whole !== null && whole.end <= shift)) return { plan: whole, left: [] };
  const quick: Search = { ...search, keepGoing: () => false };
  const order = round.sections
    .flatMap(({ section }) =>
      section.litters.flatMap((one) => one.animals.map((animal) => ({ animal, section: section.id }))),
    )
    .sort((a, b) => b.animal.overdueDays - a.animal.overdueDays);
  const endWith = (ids: ReadonlySet<string>): number => {
    const part = roundOf(round, ids);
    if (part === null) return 0;
    return planRound(part, quick)?.end ?? Number.MAX_SAFE_INTEGER;
  };
  const firstOnes = (count: number): Set<string> => new Set(order.slice(0, count).map((one) => one.animal.id));

  let [fits, tooMany] = [0, order.length];
  while (tooMany - fits > 1) {
    const middle = Math.floor((fits + tooMany) / 2);
    if (endWith(firstOnes(middle)) <= shift) fits = middle;
    else tooMany = middle;
  }
  const chosen = firstOnes(fits);
  for (const { animal } of order.slice(fits + 1, fits + 1 + mostSecondTries)) {
    const more = new Set(chosen).add(animal.id);
    if (endWith(more) <= shift) chosen.add(animal.id);
  }
  const left = order
    .filter((one) => !chosen.has(one.animal.id))
    .map(({ animal, section }): LeftOver => {
      const needs = Math.max(1, endWith(new Set(chosen).add(animal.id)) - shift);
      return { animal: animal.id, section, overdueDays: animal.overdueDays, needs };
    });
  const part = roundOf(round, chosen);
  return { plan: part === null ? null : planRound(part, search), left };
}

/** The smallest number of teams (up to `most`) that end with the shift, or null when no such number does. */
export function teamsNeeded(round: Round, most: number, search: Search = {}): number | null {
  const { shift } = round;
  if (shift === null) return 1;
  for (let teams = 1; teams <= most; teams += 1) {
    const plan = planRound({ ...round, teams }, search);
    if (plan !== null && plan.end <= shift) return teams;
  }
  return null;
}

/** The round with only these animals, without empty litters and sections; null when nobody is left. */
function roundOf(round: Round, ids: ReadonlySet<string>): Round | null {
  const sections = round.sections.flatMap((stop) => {
    const litters = stop.section.litters.flatMap((litter) => {
      const animals = litter.animals.filter((animal) => ids.has(animal.id));
      return animals.length === 0 ? [] : [{ ...litter, animals }];
    });
    const section: Instance = { ...stop.section, litters };
    return litters.length === 0 ? [] : [{ ...stop, section }];
  });
  return sections.length === 0 ? null : { ...round, sections };
}
