import type { Problem } from '../model/problem.js';

/**
 * The blood under way: ends of draws that wait for their test, and starts of tests that run, each oldest first. All
 * tests last equally long as counted (kits.ts), so first in, first out loses nothing, neither in starting nor in reading.
 */
export interface Blood {
  readonly waiting: Int32Array;
  /** How much later than it was the start of each waiting one will count: its kit opens so much later than the first. */
  readonly later: Int32Array;
  /** Ordered by the opening of their windows. */
  readonly running: Int32Array;
  waitingCount: number;
  runningCount: number;
  /** Kits used since planning began. */
  started: number;
}

export const bloodFor = (tests: number): Blood => ({
  waiting: new Int32Array(tests + 2),
  later: new Int32Array(tests + 2),
  running: new Int32Array(tests * 2 + 4),
  waitingCount: 0,
  runningCount: 0,
  started: 0,
});

/** Put a test among those that run, where its window opens. `from`: those before are over. Gives their new number. */
export function putRunning(running: Int32Array, count: number, since: number, from = 0): number {
  let at = count;
  while (at > from && (running[at - 1] ?? 0) > since) {
    running[at] = running[at - 1] ?? 0;
    at -= 1;
  }
  running[at] = since;
  return count + 1;
}

/** Earliest start of the next test at or after `now`: its kit has warmed, and with the limit reached it ends as a reading opens. */
export function earliestStart(p: Problem, blood: Blood, now: number): number {
  let start = Math.max(now, p.kits[blood.started] ?? 0);
  const over = blood.runningCount - p.limit;
  if (over >= 0) start = Math.max(start, (blood.running[over] ?? 0) + p.lagMin - p.start);
  return start;
}

/**
 * Whether everything under way can still be started and read in time if nothing else is done from `now` on, each
 * start taking as long as it might. The item with the earlier deadline goes first, except that a start which fits
 * before a reading opens does not wait for it. Uses up `blood`, which is scratch.
 */
export function inTime(p: Problem, blood: Blood, now: number, startWorst: number): boolean {
  const { waiting, running } = blood;
  let time = now;
  let nextRun = 0;
  let nextWait = 0;
  let runs = blood.runningCount;
  const waits = blood.waitingCount;
  let started = blood.started;
  while (nextRun < runs || nextWait < waits) {
    const hasRun = nextRun < runs;
    const active = runs - nextRun;
    const opens = (running[nextRun] ?? 0) + p.lagMin;
    const closes = (running[nextRun] ?? 0) + p.lagMax;
    let start = Math.max(time, p.kits[started] ?? 0);
    if (active >= p.limit) start = Math.max(start, opens - p.start);
    const latest = (waiting[nextWait] ?? 0) + p.hold;
    const readAt = Math.max(time, opens);
    const startNow =
      nextWait < waits &&
      active <= p.limit &&
      (!hasRun || start + startWorst <= readAt || (latest < closes && start + startWorst <= closes));
    if (startNow) {
      if (start > latest) return false;
      time = start + startWorst;
      runs = putRunning(running, runs, time + (blood.later[nextWait] ?? 0), nextRun);
      nextWait += 1;
      started += 1;
    } else {
      if (readAt > closes) return false;
      time = readAt + p.read;
      nextRun += 1;
    }
  }
  return true;
}
