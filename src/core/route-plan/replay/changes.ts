import { type Said, said } from '../../said.js';
import { endOf, type Instance, type Step } from '../model/instance.js';
import type { RunState } from '../model/run-state.js';

/**
 * What is different in a new plan, for people who have the old one in mind: who is left out and whose test, who
 * comes earlier or later than before, readings that move, and the new end. Times in whole minutes.
 */
export function changesBetween(
  instance: Instance,
  before: readonly Step[],
  after: readonly Step[],
  state: RunState,
): readonly Said[] {
  const minutes = (units: number): number => Math.round((units * instance.unitSeconds) / 60);
  const changes: Said[] = [];
  const planned = new Set(after.map((step) => step.animal));
  for (const one of state.animals) {
    const was = before.some((step) => step.animal === one.id && step.start >= state.now);
    if (one.leave === 'everything' && was) changes.push(said('plan.change.left-out', { animal: one.id }));
    else if (one.leave === 'test') changes.push(said('plan.change.test-left-out', { animal: one.id }));
  }
  const old = orderOf(before).filter((animal) => planned.has(animal));
  for (const { animal, after: next } of moved(
    old,
    orderOf(after).filter((one) => old.includes(one)),
  )) {
    changes.push(
      next === null
        ? said('plan.change.now-first', { animal })
        : said('plan.change.comes-after', { animal, other: next }),
    );
  }
  const [end, newEnd] = [endOf(before), endOf(after)];
  const by = minutes(newEnd - end);
  if (by > 0) changes.push(said('plan.change.later', { minutes: by }));
  if (by < 0) changes.push(said('plan.change.earlier', { minutes: -by }));
  return changes;
}

/** Animals in the order in which their handling begins. */
function orderOf(steps: readonly Step[]): string[] {
  const order = steps.filter((step) => step.is === 'handling').sort((a, b) => a.start - b.start);
  return [...new Set(order.map((step) => step.animal ?? ''))];
}

/** The fewest animals that have to move to make one order of the other: those outside a longest common order. */
function moved(old: readonly string[], now: readonly string[]): { animal: string; after: string | null }[] {
  const place = new Map(old.map((animal, i) => [animal, i]));
  const ranks = now.map((animal) => place.get(animal) ?? 0);
  const longest: { length: number; from: number }[] = [];
  for (const [i, rank] of ranks.entries()) {
    const best = { length: 1, from: -1 };
    for (let j = 0; j < i; j += 1) {
      const length = (longest[j]?.length ?? 0) + 1;
      if ((ranks[j] ?? 0) < rank && length > best.length) [best.length, best.from] = [length, j];
    }
    longest.push(best);
  }
  let at = longest.reduce((best, one, i) => (one.length > (longest[best]?.length ?? 0) ? i : best), 0);
  const staying = new Set<number>();
  while (at >= 0 && longest.length > 0) {
    staying.add(at);
    at = longest[at]?.from ?? -1;
  }
  return now.flatMap((animal, i) => (staying.has(i) ? [] : [{ animal, after: now[i - 1] ?? null }]));
}
