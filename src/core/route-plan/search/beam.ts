import type { Move, Mover } from './moves.js';
import type { Node } from './node.js';

/** One pass of the search: how many half plans are kept, in which order, and what a whole plan has to beat. */
export interface Pass {
  readonly width: number;
  readonly rank: (move: Move) => number;
  /** Whether a plan that can end at `end`, with animals kept waiting `spread`, is still worth following. */
  readonly worth: (end: number, spread: number) => boolean;
}

/** Half plans of the same shape that are kept at once: they differ in when their tests were started. */
const perShape = 3;

/**
 * Grow half plans step by step, keeping the `width` best of each length. Gives the best whole plan that is worth
 * having, or null; stops between two lengths when `keepGoing` says so.
 */
export function beam(root: Node, mover: Mover, pass: Pass, keepGoing: () => boolean): Node | null {
  let level: Node[] = [root];
  let best: Node | null = null;
  const shapes = new Map<number, number>();
  while (level.length > 0) {
    const moves: Move[] = [];
    for (const node of level) {
      if (node.left === 0) {
        if (pass.worth(node.time, node.spread) && (best === null || better(node, best))) best = node;
        continue;
      }
      for (const move of mover.movesFrom(node)) {
        if (!pass.worth(move.end, move.spread)) continue;
        move.rank = pass.rank(move);
        moves.push(move);
      }
    }
    if (moves.length === 0 || !keepGoing()) break;
    moves.sort((a, b) => a.rank - b.rank);
    shapes.clear();
    level = [];
    for (const move of moves) {
      const same = shapes.get(move.key) ?? 0;
      if (same >= perShape) continue;
      shapes.set(move.key, same + 1);
      level.push(mover.take(move));
      if (level.length >= pass.width) break;
    }
  }
  return best;
}

const better = (a: Node, b: Node): boolean => a.time < b.time || (a.time === b.time && a.spread < b.spread);
