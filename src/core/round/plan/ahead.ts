import { noLimit, type Problem, putBack } from './problem.js';
import type { Blood } from './serve.js';

/** What `mustEnd` needs to know of a state; one object is used over and over. */
export interface Ahead {
  time: number;
  left: number;
  animal: number;
  litter: number;
  progress: Uint8Array;
}

/** Sums per litter, used over and over. */
export interface Room {
  readonly tested: Int32Array;
  readonly other: Int32Array;
  /** Longest rest of a visit after its draw. */
  readonly rest: Int32Array;
  /** Animals that are still to be drawn. */
  readonly drawn: Int32Array;
}

export const roomFor = (p: Problem): Room => ({
  tested: new Int32Array(p.litterCount),
  other: new Int32Array(p.litterCount),
  rest: new Int32Array(p.litterCount),
  drawn: new Int32Array(p.animals.length),
});

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
  const { tested, other, rest, drawn } = room;
  let undrawn = 0;
  let openRest = 0;
  tested.fill(-1);
  other.fill(0);
  rest.fill(0);
  for (let a = 0; a < p.animals.length; a += 1) {
    const progress = at.progress[a] ?? 0;
    const done = progress & 63;
    if (done >= (p.opCount[a] ?? 0)) continue;
    const litter = p.litterOf[a] ?? 0;
    const remaining = p.restFrom[a * p.stride + done] ?? 0;
    if (p.tested[a] === 1 && done === 0) {
      drawn[undrawn++] = a;
      tested[litter] = Math.max(0, tested[litter] ?? 0) + remaining + (a === at.animal ? 0 : p.fetch);
      rest[litter] = Math.max(rest[litter] ?? 0, p.restFrom[a * p.stride + 1] ?? 0);
    } else if (a === at.animal) {
      openRest = remaining;
    } else {
      other[litter] = (other[litter] ?? 0) + remaining + (progress >= putBack ? p.refetch : p.fetch);
    }
  }
  const work = at.time + at.left;
  if (undrawn + waitingCount === 0) {
    if (runningCount === 0) return work;
    return Math.max(work, (running[runningCount - 1] ?? 0) + p.lagMin + p.read);
  }
  let before = (undrawn + waitingCount) * p.start;
  if (undrawn === 0) return Math.max(work, lastRead(p, at.time, before, blood, 0));

  let outside = false;
  for (let l = 0; l < p.litterCount; l += 1) if (l !== at.litter && (tested[l] ?? -1) >= 0) outside = true;
  const mayPutBack = p.split && at.animal >= 0 && p.tested[at.animal] === 1 && (at.progress[at.animal] ?? 0) === 1;
  if (!mayPutBack || outside) before += openRest;
  let saved = 0;
  for (let l = 0; l < p.litterCount; l += 1) {
    const own = tested[l] ?? -1;
    if (l === at.litter) {
      before += Math.max(0, own) + (outside ? (other[l] ?? 0) : 0);
      if (!outside) saved = Math.max(saved, rest[l] ?? 0);
    } else if (own >= 0) {
      before += own + p.gloves + (other[l] ?? 0);
      saved = Math.max(saved, (other[l] ?? 0) + (rest[l] ?? 0));
    }
  }
  if (!p.split) return Math.max(work, lastRead(p, at.time, before - saved, blood, undrawn));
  let best = Number.MAX_SAFE_INTEGER;
  for (let l = 0; l < p.litterCount; l += 1) {
    if ((tested[l] ?? -1) < 0 || (l === at.litter && outside)) continue;
    best = Math.min(best, endWithLast(p, at, before, blood, room, l, undrawn, work));
  }
  return best;
}

/** Visits of the last litter split: any number of rests put off, each beyond the first paid with fetching again. */
function endWithLast(
  p: Problem,
  at: Ahead,
  before: number,
  blood: Blood,
  room: Room,
  litter: number,
  undrawn: number,
  work: number,
): number {
  const rests: number[] = [];
  for (let i = 0; i < undrawn; i += 1) {
    const a = room.drawn[i] ?? 0;
    if (p.litterOf[a] === litter) rests.push(p.restFrom[a * p.stride + 1] ?? 0);
  }
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
