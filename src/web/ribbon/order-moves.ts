/** How a wish is made from a hand's movement: the list and the drawing both ask here, the plan then decides. */

type LitterOf = (animal: string) => string;

/**
 * The order when an animal is put down before the place `gap` (0 before the first, the length after the last). Within
 * its litter it moves alone; between two other litters its whole litter comes along. Put down inside another litter it
 * stands there alone, which is for the plan to refuse.
 */
export function putAt(order: readonly string[], litterOf: LitterOf, animal: string, gap: number): readonly string[] {
  const own = litterOf(animal);
  const [before, after] = [order[gap - 1], order[gap]].map((one) => (one === undefined ? null : litterOf(one)));
  const alone = before === own || after === own || (before !== null && before === after);
  const moved = alone ? [animal] : order.filter((one) => litterOf(one) === own);
  const stays = (one: string): boolean => !moved.includes(one);
  return [...order.slice(0, gap).filter(stays), ...moved, ...order.slice(gap).filter(stays)];
}

/** One step earlier or later: past its neighbour within the litter, at the litter's edge the litter past the next. */
export function stepBy(order: readonly string[], litterOf: LitterOf, animal: string, by: 1 | -1): readonly string[] {
  return putAt(order, litterOf, animal, nextGap(order, litterOf, animal, order.indexOf(animal), by));
}

/** The next place that makes another order, from the place `gap` on; the same place when there is none. */
export function nextGap(order: readonly string[], litterOf: LitterOf, animal: string, gap: number, by: 1 | -1): number {
  const now = putAt(order, litterOf, animal, gap).join(' ');
  for (let to = gap + by; to >= 0 && to <= order.length; to += by) {
    const made = putAt(order, litterOf, animal, to);
    if (made.join(' ') !== now && !parts(made, litterOf)) return to;
  }
  return gap;
}

/** Whether a litter stands in two places. */
function parts(order: readonly string[], litterOf: LitterOf): boolean {
  const runs = order.map(litterOf).filter((litter, i, all) => litter !== all[i - 1]);
  return new Set(runs).size < runs.length;
}
