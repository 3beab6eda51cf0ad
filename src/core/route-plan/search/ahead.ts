import { noLimit, type Problem, putBack } from '../model/problem.js';
import type { Blood } from './serve.js';

/** What `mustEnd` needs to know of a state; one object is used over and over. */
export interface Ahead {
  time: number;
  left: number;
  animal: number;
  litter: number;
  progress: Uint8Array;
  /** How long a holder may have been on his way already. */
  underWay: number;
  /** Written by `mustEnd`: the last reading by itself, whatever work there is; earlier is more promising. */
  tail: number;
}

/** Sums over the animals of each litter that are still to be done, kept up by `sumLitter`. */
export interface Room {
  /** Kits for animals still to be drawn, how long their visits are, and the longest part of one after its draw. */
  readonly undrawn: Int32Array;
  readonly tested: Int32Array;
  readonly rest: Int32Array;
  /** Visits of the others, without the animal that is out. */
  readonly other: Int32Array;
  /** Ways that a holder still has to go alone. */
  readonly ways: Int32Array;
}

export function roomFor(p: Problem, progress: Uint8Array, animal: number): Room {
  const sums = (): Int32Array => new Int32Array(p.litterCount);
  const room = { undrawn: sums(), tested: sums(), rest: sums(), other: sums(), ways: sums() };
  sumAll(p, room, progress, animal);
  return room;
}

export function sumAll(p: Problem, room: Room, progress: Uint8Array, animal: number): void {
  for (let l = 0; l < p.litterCount; l += 1) sumLitter(p, room, l, progress, animal);
}

export function sumLitter(p: Problem, room: Room, litter: number, progresses: Uint8Array, out: number): void {
  let undrawn = 0;
  let tested = 0;
  let rest = 0;
  let other = 0;
  let ways = 0;
  const to = p.litterFrom[litter + 1] ?? 0;
  for (let a = p.litterFrom[litter] ?? 0; a < to; a += 1) {
    const progress = progresses[a] ?? 0;
    const done = progress & 63;
    if (done >= (p.opCount[a] ?? 0)) continue;
    const remaining = p.restFrom[a * p.stride + done] ?? 0;
    if (a !== out) ways += progress >= putBack ? p.refetchBeside : p.fetchBeside;
    if (p.tested[a] === 1 && done === 0) {
      undrawn += p.kitsFrom[a] ?? 0;
      tested += remaining + (a === out ? 0 : p.fetch);
      rest = Math.max(rest, p.restFrom[a * p.stride + 1] ?? 0);
    } else if (a !== out) {
      other += remaining + (progress >= putBack ? p.refetch : p.fetch);
    }
  }
  room.undrawn[litter] = undrawn;
  room.tested[litter] = tested;
  room.rest[litter] = rest;
  room.other[litter] = other;
  room.ways[litter] = ways;
}

/**
 * Earliest possible end of any plan that goes on from a state (a lower bound, proven by counting):
 *
 *     now |---- what must come before the last test is started ----|-- incubation --|read|
 *         the last start; draws, whole visits and whole litters     what is left may fill this
 *         before it; readings that cannot wait so long
 *
 * Only one animal is out at a time and litters are closed one after another, so before the last start everything is
 * done but the rest of one visit and the untested animals of one litter. With visits that may be split, the rests of
 * that litter can wait too, at the price of fetching again.
 */
export function mustEnd(p: Problem, at: Ahead, blood: Blood, room: Room): number {
  const { waitingCount, runningCount, running } = blood;
  const { tested, other, rest } = room;
  let undrawn = 0;
  let outside = false;
  for (let l = 0; l < p.litterCount; l += 1) {
    const count = room.undrawn[l] ?? 0;
    undrawn += count;
    if (count > 0 && l !== at.litter) outside = true;
  }
  const work = at.time + at.left + waitsForHolder(p, at, blood, room);
  at.tail = 0;
  if (undrawn + waitingCount === 0) {
    if (runningCount > 0) at.tail = (running[runningCount - 1] ?? 0) + p.lagMin + p.read;
    return Math.max(work, at.tail);
  }
  let before = (undrawn + waitingCount) * p.start;
  if (undrawn === 0) {
    at.tail = lastRead(p, at.time, before, blood, 0);
    return Math.max(work, at.tail);
  }

  const out = at.animal;
  const done = out < 0 ? 0 : (at.progress[out] ?? 0);
  const isTested = out >= 0 && p.tested[out] === 1;
  const mayPutBack = p.split && isTested && done === 1;
  if (out >= 0 && !(isTested && done === 0) && (!mayPutBack || outside))
    before += p.restFrom[out * p.stride + done] ?? 0;
  let saved = 0;
  for (let l = 0; l < p.litterCount; l += 1) {
    const count = room.undrawn[l] ?? 0;
    if (l === at.litter) {
      before += (tested[l] ?? 0) + (outside ? (other[l] ?? 0) : 0);
      if (!outside) saved = Math.max(saved, rest[l] ?? 0);
    } else if (count > 0) {
      before += (tested[l] ?? 0) + p.gloves + (other[l] ?? 0);
      saved = Math.max(saved, (other[l] ?? 0) + (rest[l] ?? 0));
    }
  }
  at.tail = lastRead(p, at.time, before - saved, blood, undrawn);
  if (!p.split) return Math.max(work, at.tail);
  let best = Number.MAX_SAFE_INTEGER;
  for (let l = 0; l < p.litterCount; l += 1) {
    if ((room.undrawn[l] ?? 0) === 0 || (l === at.litter && outside)) continue;
    best = Math.min(best, endWithLast(p, at, work, before, blood, room, l, undrawn));
  }
  return best;
}

/**
 * How much longer than the treater's own work it takes at least for one holder's ways: he goes them while the treater
 * starts or reads tests, at no other time, since handling and changing gloves keep both. With nothing to start or read,
 * the next way has to be waited for.
 */
export function waitsForHolder(p: Problem, at: Omit<Ahead, 'tail' | 'left'>, blood: Blood, room: Room): number {
  if (p.holders !== 1) return 0;
  let ways = -at.underWay;
  let tests = blood.waitingCount;
  for (let l = 0; l < p.litterCount; l += 1) {
    ways += room.ways[l] ?? 0;
    tests += room.undrawn[l] ?? 0;
  }
  if (ways <= 0) return 0;
  const out = at.animal >= 0 && ((at.progress[at.animal] ?? 0) & 63) < (p.opCount[at.animal] ?? 0);
  const idle = !out && blood.waitingCount + blood.runningCount === 0;
  const first = idle ? Math.max(0, Math.min(p.fetchBeside, p.refetchBeside) - at.underWay) : 0;
  return first + Math.max(0, ways - first - tests * (p.start + p.read) - blood.runningCount * p.read);
}

/** Visits of the last litter split: any number of rests put off, each beyond the first paid with fetching again. */
function endWithLast(
  p: Problem,
  at: Ahead,
  work: number,
  before: number,
  blood: Blood,
  room: Room,
  litter: number,
  undrawn: number,
): number {
  const rests: number[] = [];
  for (let a = p.litterFrom[litter] ?? 0; a < (p.litterFrom[litter + 1] ?? 0); a += 1)
    if (p.tested[a] === 1 && at.progress[a] === 0) rests.push(p.restFrom[a * p.stride + 1] ?? 0);
  rests.sort((a, b) => b - a);
  let saved = litter === at.litter ? 0 : (room.other[litter] ?? 0);
  let best = Number.MAX_SAFE_INTEGER;
  for (let put = 0; put <= rests.length; put += 1) {
    if (put > 0) saved += rests[put - 1] ?? 0;
    const end = lastRead(p, at.time, before - saved, blood, undrawn);
    best = Math.min(best, Math.max(work + Math.max(0, put - 1) * p.refetch, end));
  }
  return best;
}

/** End of the last reading when `before` has to be done before the last test has been started. */
function lastRead(p: Problem, time: number, before: number, blood: Blood, undrawn: number): number {
  const { waitingCount, runningCount, running } = blood;
  let until = before;
  // Readings that close before the last start are over by then, and so are those above what can be unread at once.
  const early = Math.max(0, undrawn - p.atOnce);
  if (early > 0) until += p.read * (early + waitingCount + runningCount);
  else {
    for (let i = 0; i < runningCount; i += 1) {
      if ((running[i] ?? 0) + p.lagMax >= time + until) break;
      until += p.read;
    }
  }
  const future = undrawn + waitingCount;
  let started = time + until;
  if (p.kits.length > 0) started = Math.max(started, (p.kits[blood.started + future - 1] ?? 0) + p.start);
  if (p.limit !== noLimit) started = Math.max(started, lastStartUnderLimit(p, time, blood, future));
  return started + p.lagMin + p.read;
}

/** Test i+limit starts, at the earliest, as the reading of test i opens. */
function lastStartUnderLimit(p: Problem, time: number, blood: Blood, future: number): number {
  const last = blood.runningCount + future - 1;
  const turns = Math.floor(last / p.limit);
  const first = last - turns * p.limit;
  let end = 0;
  for (let i = first, left = turns; i <= last && left >= 0; i += p.limit, left -= 1) {
    const own = i < blood.runningCount ? (blood.running[i] ?? 0) : time + (i - blood.runningCount + 1) * p.start;
    end = Math.max(end, own + left * p.lagMin);
  }
  return end;
}
