import { chanceFrom } from '../model/chance.js';
import type { Instance, Step } from '../model/instance.js';
import { type Problem, problemOf } from '../model/problem.js';
import { atStart, type RunState } from '../model/run-state.js';
import { beam, type Pass } from './beam.js';
import { type Bounds, boundsOf } from './bound.js';
import { type Move, type Mover, moverFor } from './moves.js';
import { type Node, rootOf } from './node.js';
import { peakRunning, spreadOf, stepsTo } from './steps.js';

/** A plan of one section for one team, in units from its start. */
export interface Plan {
  readonly steps: readonly Step[];
  readonly end: number;
  /** Time that animals are kept waiting in the middle of their handling, summed. */
  readonly spread: number;
  readonly peakRunning: number;
  readonly bounds: Bounds;
  /** How much longer than planned an operation may take without a reading being missed. */
  readonly rho: number;
  /** True when no plan at all can end earlier. */
  readonly shortest: boolean;
}

export interface Search {
  /** 2 by default: every operation may take twice its planned time and no reading is missed. */
  readonly rho?: number;
  /** Time kept free beside every operation for an interruption that cannot be put off; 0 by default. */
  readonly reserve?: number;
  readonly state?: RunState;
  /** Asked between two steps of the search; false ends it with the best plan found so far. */
  readonly keepGoing?: () => boolean;
  /** Told every better plan as it is found. */
  readonly onBetter?: (plan: Plan) => void;
  /** Seed of the tie-breaks. */
  readonly seed?: number;
  /** Half plans kept in the first pass. */
  readonly firstWidth?: number;
}

export const safeRho = 2;

/** Half plans kept at once, pass by pass: quick ones first. */
const narrow = 12;
const middle = 60;
const broad = 200;
const widest = 1000;
const quickPasses = 4;
const randomPasses = 8;

/**
 * The shortest plan found before `keepGoing` ends the search, and of equally short ones the one that keeps animals
 * waiting least. The same input and the same answers of `keepGoing` give the same plan. A plan is always found: handling
 * one animal after another and waiting for each test breaks no rule (unless blood has to wait longer for a kit than it may).
 */
export function planSection(instance: Instance, search: Search = {}): Plan | null {
  const p = problemOf(instance, search.rho ?? safeRho, search.state ?? atStart, search.reserve ?? 0);
  return searchFor(p, search);
}

/** The same for a problem that is laid out already. */
export function searchFor(p: Problem, search: Search): Plan | null {
  const keepGoing = search.keepGoing ?? (() => true);
  const root = rootOf(p);
  const mover = moverFor(p);
  const bounds = boundsOf(p);
  let best: Node | null = null;
  const offer = (found: Node | null): void => {
    if (found === null) return;
    if (best !== null && !(found.time < best.time || (found.time === best.time && found.spread < best.spread))) return;
    best = found;
    search.onBetter?.(planOf(p, found, bounds));
  };
  const current = (): Node | null => best;
  // The first plan may not be cut short: without it there would be nothing to work by.
  offer(beam(root, mover, passFor(search.firstWidth ?? narrow, early, current), () => true));
  for (const pass of shorter(search.seed ?? 1, current)) {
    const sofar = current();
    if ((sofar !== null && sofar.time <= bounds.best) || !keepGoing()) break;
    offer(beam(root, mover, pass, keepGoing));
  }
  calmer(root, mover, current, offer, keepGoing);
  const found = current();
  return found === null ? null : planOf(p, found, bounds);
}

/** Passes that look for an earlier end. Chance breaks ties where counting sees no difference (measured: bench round). */
function* shorter(seed: number, best: () => Node | null): Generator<Pass> {
  const chance = chanceFrom(seed);
  const byChance = (move: Move): number => (move.end + chance.next()) * 131_072;
  const nearly = (move: Move): number => (move.end + 2 * chance.next()) * 131_072 + move.tail;
  yield passFor(middle, early, best);
  for (let i = 0; i < quickPasses; i += 1) yield passFor(middle, i % 2 === 0 ? byChance : nearly, best);
  yield passFor(broad, early, best);
  yield passFor(broad, calm, best);
  for (let i = 0; i < randomPasses; i += 1) yield passFor(broad, i % 2 === 0 ? byChance : nearly, best);
  yield passFor(widest, early, best);
  yield passFor(widest, byChance, best);
}

/** Passes that keep the end and let animals wait less. */
function calmer(
  root: Node,
  mover: Mover,
  best: () => Node | null,
  offer: (found: Node | null) => void,
  keepGoing: () => boolean,
): void {
  for (const width of [middle, broad]) {
    const sofar = best();
    if (sofar === null || sofar.spread === 0 || !keepGoing()) return;
    const worth = (end: number, spread: number): boolean => end <= sofar.time && spread < (best()?.spread ?? 0);
    offer(beam(root, mover, { width, rank: (move) => move.spread * 65_536 + move.tail, worth }, keepGoing));
  }
}

// Three numbers in one, most important first; with times below 2^15 and 17 bits each the sum stays exact.
const early = (move: Move): number => (move.end * 131_072 + move.tail) * 131_072 + move.spread;
const calm = (move: Move): number => (move.end * 131_072 + move.spread) * 131_072 + move.tail;

const passFor = (width: number, rank: (move: Move) => number, best: () => Node | null): Pass => ({
  width,
  rank,
  worth: (end) => end < (best()?.time ?? Number.MAX_SAFE_INTEGER),
});

/** The plan that ends in `node`. */
export function planOf(p: Problem, node: Node, bounds: Bounds): Plan {
  const steps = stepsTo(p, node);
  return {
    steps,
    end: node.time,
    spread: spreadOf(steps),
    peakRunning: peakRunning(steps),
    bounds,
    rho: p.rho,
    shortest: node.time <= bounds.best,
  };
}
