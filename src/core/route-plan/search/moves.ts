import { type Problem, putBack } from '../model/problem.js';
import { type Ahead, mustEnd, type Room, roomFor, sumAll, sumLitter } from './ahead.js';
import { bloodOf, gloving, handling, keySlot, type Node, reading, starting, underWay } from './node.js';
import { type Blood, bloodFor, earliestStart, inTime, putRunning } from './serve.js';

/** A step that may follow a node, with what it would lead to. */
export interface Move {
  readonly from: Node;
  readonly move: number;
  readonly subject: number;
  readonly start: number;
  readonly length: number;
  readonly spread: number;
  /** No plan through here can end earlier. */
  readonly end: number;
  /** Earliest end of the last reading, whatever work there is. */
  readonly tail: number;
  readonly key: number;
  /** Order in the beam, set by the pass; lower is kept. */
  rank: number;
}

export interface Mover {
  /** All steps that may follow, none of which can make a reading or a sample late. */
  movesFrom(node: Node): Move[];
  take(move: Move): Node;
}

/** Longest an operation may take without harm to what is under way. */
export const worst = (p: Problem, length: number): number => Math.ceil(length * p.rho) + p.reserve;

/**
 * The steps that may follow a state: read the oldest test, start the oldest sample, go on with the animal that is
 * out, fetch another one of the litter, change gloves for another litter. Of animals that differ in name only one is
 * tried, unless `everyTwin` says otherwise.
 */
export function moverFor(p: Problem, everyTwin = false): Mover {
  const blood = bloodFor(p.tests);
  const room: Room = roomFor(p, new Uint8Array(p.animals.length), -1);
  const ahead: Ahead = { time: 0, left: 0, animal: -1, litter: -1, progress: new Uint8Array(0), underWay: 0, tail: 0 };
  const startWorst = Math.ceil(p.start * p.rho);
  const seen = new Set<number>();

  function movesFrom(node: Node): Move[] {
    const moves: Move[] = [];
    sumAll(p, room, node.progress, node.animal);
    const push = (move: number, subject: number, start: number, length: number): void => {
      const judged = judge(node, move, subject, start, length);
      if (judged !== null) moves.push(judged);
    };
    if (node.running.length > 0) {
      const opened = Math.max(node.time, (node.running[0] ?? 0) + p.lagMin);
      // A start that used the last moment of the limit ends as this reading begins, and nothing comes between.
      if (node.running.length > p.limit) {
        if (opened === node.time) push(reading, -1, opened, p.read);
        return moves;
      }
      push(reading, -1, opened, p.read);
    }
    if (node.waiting.length > 0) {
      bloodOf(node, blood);
      const earliest = earliestStart(p, blood, node.time);
      push(starting, -1, earliest, p.start);
      // Started a little later, so that it ends as a reading opens: its own window moves with it.
      const late = (node.running[0] ?? 0) + p.lagMin - p.start;
      if (node.running.length > 0 && late > earliest) push(starting, -1, late, p.start);
    }
    handle(node, push);
    return moves;
  }

  function handle(node: Node, push: (move: number, subject: number, start: number, length: number) => void): void {
    const out = node.animal;
    const done = out < 0 ? 0 : (node.progress[out] ?? 0);
    const unfinished = out >= 0 && done < (p.opCount[out] ?? 0);
    if (unfinished) {
      push(handling, out, startOf(node, out, done, false), p.lengths[out * p.stride + done] ?? 0);
      if (!(p.split && p.tested[out] === 1 && done === 1)) return;
    }
    let closed = true;
    seen.clear();
    for (let a = 0; a < p.animals.length; a += 1) {
      if (p.litterOf[a] !== node.litter || a === out) continue;
      const progress = node.progress[a] ?? 0;
      const op = progress & 63;
      if (op >= (p.opCount[a] ?? 0)) continue;
      closed = false;
      const shape = keySlot(p, a, progress);
      if (!everyTwin && seen.has(shape)) continue;
      seen.add(shape);
      const extra = progress >= putBack ? p.refetch : p.fetch;
      push(
        handling,
        a,
        Math.max(startOf(node, a, op, true), handedOver(node, progress, 1)),
        (p.lengths[a * p.stride + op] ?? 0) + extra,
      );
    }
    if (!closed || unfinished) return;
    seen.clear();
    const open = openLitters(node);
    for (let l = 0; l < p.litterCount; l += 1) {
      if (open[l] !== 1) continue;
      const shape = p.litterClass[l] ?? 0;
      if (!everyTwin && seen.has(shape)) continue;
      seen.add(shape);
      push(gloving, l, node.time, p.gloves);
    }
  }

  const stillOpen = new Uint8Array(p.litterCount);
  function openLitters(node: Node): Uint8Array {
    stillOpen.fill(0);
    for (let a = 0; a < p.animals.length; a += 1)
      if (((node.progress[a] ?? 0) & 63) < (p.opCount[a] ?? 0)) stillOpen[p.litterOf[a] ?? 0] = 1;
    return stillOpen;
  }

  /** Earliest sensible start of an operation: with two people, and no draw whose blood would wait too long for its test. */
  function startOf(node: Node, animal: number, op: number, fetched: boolean): number {
    let start = node.time;
    if (p.needsTwo[animal * p.stride + op] === 1) start = Math.max(start, p.twoFrom);
    if (p.tested[animal] === 1 && op === 0) {
      const length = (p.lengths[animal * p.stride] ?? 0) + (fetched ? p.fetch : 0);
      const last = node.waiting.length + (p.kitsFrom[animal] ?? 1) - 1;
      const kit = p.kits[node.started + last] ?? 0;
      const over = node.running.length + last - p.limit;
      const free = over >= 0 && over < node.running.length ? (node.running[over] ?? 0) + p.lagMin - p.start : 0;
      start = Math.max(start, Math.max(kit, free) - p.hold - length);
    }
    return start;
  }

  /**
   * When a holder has put back his last animal and brought this one; 0 where the team is one. `stretch`: how many times
   * its length the way may take. While the partner is away the treater fetches, and does nothing beside it.
   */
  function handedOver(node: Node, progress: number, stretch: number): number {
    if (p.holders === 0) return 0;
    const way = progress >= putBack ? p.refetchBeside : p.fetchBeside;
    const held = node.time < p.twoFrom ? node.time : (node.free[0] ?? node.time);
    return Math.min(held, node.time) + Math.ceil(way * stretch);
  }

  function judge(node: Node, move: number, subject: number, start: number, length: number): Move | null {
    const end = start + length;
    const before = move === handling ? (node.progress[subject] ?? 0) : 0;
    const slow = move === handling && subject !== node.animal ? handedOver(node, before, p.rho) : 0;
    const late = move === reading ? end : Math.max(start, slow) + worst(p, length);
    bloodOf(node, blood);
    if (!applied(node, blood, move, subject, start, late)) return null;
    const { waitingCount, runningCount } = blood;
    if (waitingCount + runningCount > 0 && !inTime(p, blood, late, startWorst)) return null;

    bloodOf(node, blood);
    applied(node, blood, move, subject, start, end);
    let key = node.key;
    let otherKey = node.otherKey;
    if (move === handling) {
      const after = (before & 63) + 1;
      const [was, is] = [keySlot(p, subject, before), keySlot(p, subject, after)];
      key = (key - (p.keys[was] ?? 0) + (p.keys[is] ?? 0)) | 0;
      otherKey = (otherKey - (p.otherKeys[was] ?? 0) + (p.otherKeys[is] ?? 0)) | 0;
      node.progress[subject] = after;
    }
    const putAway = move === handling && subject !== node.animal && isSplit(node);
    if (putAway) node.progress[node.animal] = 1 | putBack;
    ahead.time = end;
    ahead.left = node.left - length + (putAway ? p.refetch : 0);
    ahead.animal = move === handling ? subject : move === gloving ? -1 : node.animal;
    ahead.litter = move === gloving ? subject : node.litter;
    ahead.progress = node.progress;
    ahead.underWay = ahead.animal >= 0 ? 0 : underWay(p, node, move === gloving ? end - p.gloves : end);
    if (move === handling) sumLitter(p, room, p.litterOf[subject] ?? 0, node.progress, subject);
    const soonest = mustEnd(p, ahead, blood, room);
    if (move === handling) node.progress[subject] = before;
    if (putAway) node.progress[node.animal] = 1;
    if (move === handling) sumLitter(p, room, p.litterOf[subject] ?? 0, node.progress, node.animal);
    const own = move === handling && isBegun(node, subject, before) ? length : 0;
    return {
      from: node,
      move,
      subject,
      start,
      length,
      spread: node.spread + (end - node.time) * node.begun - own,
      end: soonest,
      tail: ahead.tail,
      key: combined(key, otherKey, blood.runningCount, blood.waitingCount, ahead.animal, ahead.litter),
      rank: 0,
    };
  }

  /** Whether the handling of an animal has begun, so that from now on every minute keeps it waiting. */
  const isBegun = (node: Node, animal: number, progress: number): boolean =>
    progress >= putBack || (animal === node.animal && progress > 0);

  const isSplit = (node: Node): boolean =>
    node.animal >= 0 &&
    p.split &&
    node.progress[node.animal] === 1 &&
    p.tested[node.animal] === 1 &&
    (p.opCount[node.animal] ?? 0) > 1;

  /** Put a move's effect on the blood into `into`; false when its deadline is past. */
  function applied(node: Node, into: Blood, move: number, subject: number, start: number, end: number): boolean {
    if (move === reading) {
      if (start > (into.running[0] ?? 0) + p.lagMax) return false;
      into.running.copyWithin(0, 1, into.runningCount);
      into.runningCount -= 1;
    } else if (move === starting) {
      if (start > (into.waiting[0] ?? 0) + p.hold) return false;
      into.runningCount = putRunning(into.running, into.runningCount, end + (into.later[0] ?? 0));
      into.waiting.copyWithin(0, 1, into.waitingCount);
      into.later.copyWithin(0, 1, into.waitingCount);
      into.waitingCount -= 1;
      into.started += 1;
    } else if (move === handling && node.progress[subject] === 0 && p.tested[subject] === 1) {
      for (const later of p.laterOf[subject] ?? []) {
        into.later[into.waitingCount] = later;
        into.waiting[into.waitingCount++] = end;
      }
    }
    return true;
  }

  function take(move: Move): Node {
    const { from, start, length, subject } = move;
    const time = start + length;
    let { progress, waiting, later, running, free, animal, litter, begun, started, key, otherKey, left } = from;
    left -= length;
    if (move.move === reading) running = running.slice(1);
    else if (move.move === starting) {
      const since = time + (later[0] ?? 0);
      const place = running.findIndex((one) => one > since);
      running = place < 0 ? [...running, since] : [...running.slice(0, place), since, ...running.slice(place)];
      waiting = waiting.slice(1);
      later = later.slice(1);
      started += 1;
    } else if (move.move === gloving) {
      litter = subject;
      animal = -1;
      // Each holder changes his own as soon as he is free.
      if (free.length > 0) free = free.map((one) => one + p.gloves);
    } else {
      const before = progress[subject] ?? 0;
      const after = (before & 63) + 1;
      progress = progress.slice();
      if (subject !== animal && isSplit(from)) {
        const was = keySlot(p, animal, 1);
        const is = keySlot(p, animal, 1 | putBack);
        key = (key - (p.keys[was] ?? 0) + (p.keys[is] ?? 0)) | 0;
        otherKey = (otherKey - (p.otherKeys[was] ?? 0) + (p.otherKeys[is] ?? 0)) | 0;
        progress[animal] = 1 | putBack;
        left += p.refetch;
        if (p.holders > 0) free = freed(free, from.time);
      }
      if (p.holders > 0 && subject !== animal) free = free.slice(1);
      const was = keySlot(p, subject, before);
      const is = keySlot(p, subject, after);
      key = (key - (p.keys[was] ?? 0) + (p.keys[is] ?? 0)) | 0;
      otherKey = (otherKey - (p.otherKeys[was] ?? 0) + (p.otherKeys[is] ?? 0)) | 0;
      progress[subject] = after;
      if (before === 0 && p.tested[subject] === 1) {
        const own = p.laterOf[subject] ?? [];
        waiting = [...waiting, ...own.map(() => time)];
        later = [...later, ...own];
      }
      const count = p.opCount[subject] ?? 0;
      if (!isBegun(from, subject, before)) begun += 1;
      if (after === count) begun -= 1;
      animal = after === count ? -1 : subject;
      if (p.holders > 0 && after === count) free = freed(free, time);
    }
    return {
      parent: from,
      move: move.move,
      subject,
      start,
      length,
      time,
      left,
      spread: move.spread,
      begun,
      progress,
      waiting,
      later,
      running,
      started,
      free,
      animal,
      litter,
      key,
      otherKey,
    };
  }

  return { movesFrom, take };
}

const freed = (free: readonly number[], time: number): number[] => [...free, time].sort((a, b) => a - b);

/** One exact number (below 2^53) from the sums and the small parts of a state. */
function combined(a: number, b: number, running: number, waiting: number, animal: number, litter: number): number {
  const small = Math.imul(running * 61 + waiting * 7 + (animal + 1) * 1009 + (litter + 1) * 92_821, 0x9e3779b1);
  return ((a ^ small) >>> 0) * 2_097_152 + ((b ^ (small >>> 7)) & 2_097_151);
}
