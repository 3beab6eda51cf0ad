import type { Instance, PlanAnimal } from '../model/instance.js';
import type { Search } from '../search/search.js';
import { planRound } from './round.js';
import type { Round, RoundPlan } from './round-shape.js';

export interface LeftOver {
  readonly animal: string;
  readonly section: string;
  readonly overdueDays: number;
  /**
   * How much longer the shift would have to be for this animal too: planned for the most overdue ones, and for the
   * others (or when the time to plan is over) the length of its own steps.
   */
  readonly needs: number;
}

export interface ShiftPlan {
  readonly plan: RoundPlan | null;
  readonly left: readonly LeftOver[];
}

/** Single animals that are tried again after the cut, so that a short one still fits in. */
const mostSecondTries = 12;
/** A quick plan up to so many times the shift may still be made to fit. */
const nearly = 1.1;
/** Animals for whom the longer shift is really planned. */
const mostNeeds = 12;

/**
 * A round that ends with the shift. If not all fits, the most overdue come first (equal ones in the order of the round)
 * and the rest is left, each with the time it would need. Without an end of the shift nothing is left.
 */
export function planShift(round: Round, search: Search = {}): ShiftPlan {
  const { shift } = round;
  const quick: Search = { ...search, keepGoing: () => false };
  const rough = shift === null ? null : planRound(round, quick);
  // Far too long: the time to plan is better spent on the part that fits.
  if (shift === null || rough === null || rough.end <= shift * nearly) {
    const whole = planRound(round, search);
    if (shift === null || (whole !== null && whole.end <= shift)) return { plan: whole, left: [] };
    if (rough !== null && rough.end <= shift) return { plan: rough, left: [] };
  }
  const keepGoing = search.keepGoing ?? (() => true);
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
    if (!keepGoing()) break;
    const more = new Set(chosen).add(animal.id);
    if (endWith(more) <= shift) chosen.add(animal.id);
  }
  const left = order
    .filter((one) => !chosen.has(one.animal.id))
    .map(({ animal, section }, i): LeftOver => {
      const planned = i < mostNeeds && keepGoing();
      const needs = planned ? endWith(new Set(chosen).add(animal.id)) - shift : ownLength(round, section, animal);
      return { animal: animal.id, section, overdueDays: animal.overdueDays, needs: Math.max(1, needs) };
    });
  const part = roundOf(round, chosen);
  if (part === null) return { plan: null, left };
  const plan = planRound(part, search);
  // Better estimates can deal the litters worse; what was seen to fit then stands.
  return { plan: plan !== null && plan.end <= shift ? plan : planRound(part, quick), left };
}

function ownLength(round: Round, sectionId: string, animal: PlanAnimal): number {
  const section = round.sections.find((stop) => stop.section.id === sectionId)?.section;
  const handling = animal.ops.reduce((sum, one) => sum + one.dur, section?.fetch ?? 0);
  return handling + (animal.tested && section !== undefined ? section.test.start + section.test.read : 0);
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
