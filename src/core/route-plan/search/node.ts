import { type Problem, putBack } from '../model/problem.js';
import { samplesOf } from '../model/run-state.js';
import type { Blood } from './serve.js';

export const reading = 0;
export const starting = 1;
export const handling = 2;
export const gloving = 3;

/** A plan up to some moment, as a link to the plan one step shorter. */
export interface Node {
  readonly parent: Node | null;
  /** The step that led here: reading, starting, handling (an animal) or gloving (a litter). */
  readonly move: number;
  readonly subject: number;
  readonly start: number;
  readonly length: number;
  readonly time: number;
  /** Length of all that is still to be done. */
  readonly left: number;
  /** Time animals have been kept waiting in the middle of their handling. */
  readonly spread: number;
  /** Animals begun and not finished. */
  readonly begun: number;
  /** Finished operations of each animal, with `putBack`. */
  readonly progress: Uint8Array;
  readonly waiting: readonly number[];
  /** Beside `waiting`: how much later than it will be each start counts. */
  readonly later: readonly number[];
  readonly running: readonly number[];
  readonly started: number;
  /** When each holder who holds no animal was or will be free, where they are counted apart. */
  readonly free: readonly number[];
  readonly animal: number;
  readonly litter: number;
  readonly key: number;
  readonly otherKey: number;
}

/** The root: the state that planning begins from. */
export function rootOf(p: Problem): Node {
  const states = new Map(p.began.animals.map((one) => [one.id, one]));
  const progress = Uint8Array.from(p.animals, (_, a) => p.firstOp[a] ?? 0);
  const openAnimal = p.animals.findIndex((one) => one.id === p.began.openAnimal);
  const openLitter = p.instance.litters.findIndex((one) => one.id === p.began.openLitter);
  const waiting: { readonly since: number; readonly later: number }[] = [];
  const running: number[] = [];
  let left = 0;
  let begun = 0;
  let key = 0;
  let otherKey = 0;
  const unfinished = new Set<number>();
  for (const [a, animal] of p.animals.entries()) {
    const own = states.get(animal.id);
    const samples = own === undefined ? [] : samplesOf(own);
    const done = progress[a] ?? 0;
    const unfinishedOne = done < (p.opCount[a] ?? 0);
    const again = p.split && p.tested[a] === 1 && done === 1 && a !== openAnimal && unfinishedOne;
    if (again) progress[a] = done | putBack;
    if (p.tested[a] === 1 && samples.length === 0) left += (p.kitsFrom[a] ?? 0) * (p.start + p.read);
    for (const blood of samples) {
      const later = p.clock.later(blood.kit);
      if (blood.is === 'waiting') waiting.push({ since: blood.since, later });
      if (blood.is === 'running') running.push(blood.since + later);
      if (p.tested[a] === 1 && blood.is !== 'read') left += blood.is === 'running' ? p.read : p.start + p.read;
    }
    if (unfinishedOne) {
      left += (p.restFrom[a * p.stride + done] ?? 0) + (a === openAnimal ? 0 : again ? p.refetch : p.fetch);
      unfinished.add(p.litterOf[a] ?? 0);
      if (done > 0 && (a === openAnimal || again)) begun += 1;
    }
    const slot = keySlot(p, a, progress[a] ?? 0);
    key = (key + (p.keys[slot] ?? 0)) | 0;
    otherKey = (otherKey + (p.otherKeys[slot] ?? 0)) | 0;
  }
  for (const litter of unfinished) if (litter !== openLitter) left += p.gloves;
  // Who starts longest runs longest: of one draw the kit that opens last goes first.
  waiting.sort((a, b) => a.since - b.since || b.later - a.later);
  return {
    parent: null,
    move: -1,
    subject: -1,
    start: p.began.now,
    length: 0,
    time: p.began.now,
    left,
    spread: 0,
    begun,
    progress,
    waiting: waiting.map((one) => one.since),
    later: waiting.map((one) => one.later),
    running: running.sort((a, b) => a - b),
    started: 0,
    free: Array<number>(Math.max(0, p.holders - (openAnimal >= 0 ? 1 : 0))).fill(
      Math.min(p.began.now, p.began.holderFrom ?? p.began.now),
    ),
    animal: openAnimal,
    litter: openLitter,
    key,
    otherKey,
  };
}

/** How long a holder whose hands are free may have been on his way at `time`: no longer than one way takes. */
export const underWay = (p: Problem, node: Node, time: number): number =>
  Math.min(Math.max(p.fetchBeside, p.refetchBeside), Math.max(0, time - (node.free[0] ?? time)));

/** Same for animals that differ in name only, so that trying one is trying all. */
export const keySlot = (p: Problem, animal: number, progress: number): number =>
  ((p.classOf[animal] ?? 0) * 2 + (progress >= putBack ? 1 : 0)) * p.stride + (progress & 63);

export function bloodOf(node: Node, into: Blood): void {
  for (let i = 0; i < node.waiting.length; i += 1) {
    into.waiting[i] = node.waiting[i] ?? 0;
    into.later[i] = node.later[i] ?? 0;
  }
  for (let i = 0; i < node.running.length; i += 1) into.running[i] = node.running[i] ?? 0;
  into.waitingCount = node.waiting.length;
  into.runningCount = node.running.length;
  into.started = node.started;
}
