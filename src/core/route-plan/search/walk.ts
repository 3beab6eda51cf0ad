import type { Step } from '../model/instance.js';
import type { Problem } from '../model/problem.js';
import { startedIn } from '../model/run-state.js';
import { type Move, moverFor } from './moves.js';
import { gloving, type Node, reading, rootOf, starting } from './node.js';
import { stepsTo } from './steps.js';

/**
 * Follow a given order as far as the rules let: at every moment the step that comes first in `order` among those that
 * harm nothing under way; where that one would have to wait, the next one that need not. Null when it leads nowhere.
 */
export function walk(p: Problem, order: readonly Step[]): { readonly node: Node; readonly steps: Step[] } | null {
  const mover = moverFor(p, true);
  const place = new Map(order.map((step, i) => [nameOf(step.is, step.animal ?? step.litter, step.op), i]));
  const begun = new Map(p.began.animals.map((one) => [one.id, startedIn({ animals: [one] })]));
  const starts = order.flatMap((step, i) => {
    if (step.is !== 'start-test') return [];
    const over = begun.get(step.animal ?? '') ?? 0;
    begun.set(step.animal ?? '', over - 1);
    return over > 0 ? [] : [i];
  });
  const placeOf = (node: Node, move: Move): number => {
    if (move.move === reading) return -1;
    if (move.move === starting) return starts[node.started] ?? -1;
    if (move.move === gloving)
      return place.get(nameOf('gloves', p.instance.litters[move.subject]?.id ?? '', null)) ?? order.length;
    const op = (node.progress[move.subject] ?? 0) & 63;
    return place.get(nameOf('handling', p.animals[move.subject]?.id ?? '', op)) ?? order.length;
  };
  let node = rootOf(p);
  while (node.left > 0) {
    let best: Move | null = null;
    let lowest = Number.MAX_SAFE_INTEGER;
    for (const move of mover.movesFrom(node)) {
      // What can begin now comes before everything that would have to wait.
      const value = (move.start - node.time) * 1e6 + placeOf(node, move);
      if (value < lowest) [best, lowest] = [move, value];
    }
    if (best === null) return null;
    node = mover.take(best);
  }
  return { node, steps: stepsTo(p, node) };
}

const nameOf = (is: Step['is'], subject: string, op: number | null): string => `${is} ${subject} ${op ?? ''}`;
