import { type Said, said } from '../../said.js';
import type { Problem } from '../model/problem.js';
import { mustEnd, roomFor, waitsForHolder } from './ahead.js';
import { bloodOf, type Node, rootOf, underWay } from './node.js';
import { bloodFor } from './serve.js';

export const boundKinds = ['work', 'tail', 'fill', 'limit', 'kits', 'order'] as const;
export type BoundKind = (typeof boundKinds)[number];

/** No plan can end earlier than any of these, in units from the start. */
export type Bounds = Readonly<Record<BoundKind, number>> & {
  readonly best: number;
  /** The one that decides; of equal ones the simplest. */
  readonly binds: BoundKind;
};

/**
 * Lower bounds on the end of a section, each a count that holds for every plan (reference/planning.json names them):
 * the work itself; the last test's incubation; what can fill it; the limit of running tests; the last kit's warming;
 * and the order of visits and litters before the last test (ours, see ahead.ts).
 */
export function boundsOf(p: Problem): Bounds {
  const root = rootOf(p);
  const blood = bloodFor(p.tests);
  bloodOf(root, blood);
  const now = root.time;
  const tests = untested(p, root);
  const { left, animal, litter, progress } = root;
  const gone = animal >= 0 ? 0 : underWay(p, root, now);
  const room = roomFor(p, progress, animal);
  const at = { time: now, left, animal, litter, progress, underWay: gone, tail: 0 };
  const work = now + left + waitsForHolder(p, at, blood, room);
  const values = {
    work,
    tail: tests.length === 0 ? 0 : now + tail(p, root, tests),
    fill: tests.length === 0 ? work : fill(p, root, tests, work),
    limit: tests.length === 0 ? 0 : limit(p, root, tests),
    kits:
      tests.length === 0 || p.kits.length === 0 ? 0 : (p.kits[kitsOf(p, tests) - 1] ?? 0) + p.start + p.lagMin + p.read,
    order: mustEnd(p, at, blood, room),
  };
  const best = Math.max(...boundKinds.map((kind) => values[kind]));
  return { ...values, best, binds: boundKinds.find((kind) => values[kind] === best) ?? 'work' };
}

const untested = (p: Problem, root: Node): number[] =>
  p.animals.map((_, a) => a).filter((a) => p.tested[a] === 1 && root.progress[a] === 0);

const kitsOf = (p: Problem, tests: readonly number[]): number =>
  tests.reduce((sum, a) => sum + (p.kitsFrom[a] ?? 0), 0);

const drawOf = (p: Problem, root: Node, a: number): number =>
  (p.lengths[a * p.stride] ?? 0) + (a === root.animal ? 0 : p.fetch);

/** Gloves, draws and starts that come before the end of the last start, its incubation and its reading. */
function tail(p: Problem, root: Node, tests: readonly number[]): number {
  const litters = new Set(tests.map((a) => p.litterOf[a]));
  const gloves = [...litters].filter((litter) => litter !== root.litter).length * p.gloves;
  const before = tests.reduce(
    (sum, a) => sum + drawOf(p, root, a) + (p.kitsFrom[a] ?? 0) * p.start,
    gloves + root.waiting.length * p.start,
  );
  return before + p.lagMin + p.read;
}

/** What cannot be filled of the last incubation is idle: untested animals, one rest of a visit, other readings fill it. */
function fill(p: Problem, root: Node, tests: readonly number[], work: number): number {
  const withTests = new Set(tests.map((a) => p.litterOf[a]));
  const withOthers = new Set<number>();
  let others = 0;
  for (let a = 0; a < p.animals.length; a += 1) {
    const done = (root.progress[a] ?? 0) & 63;
    if (tests.includes(a) || done >= (p.opCount[a] ?? 0)) continue;
    others += (p.restFrom[a * p.stride + done] ?? 0) + (a === root.animal ? 0 : p.fetch);
    const litter = p.litterOf[a] ?? 0;
    if (!withTests.has(litter) && litter !== root.litter) withOthers.add(litter);
  }
  const unread = root.running.length + root.waiting.length + kitsOf(p, tests);
  const latest = p.lagMax + Math.max(0, ...p.laterOf.flat());
  const readings = Math.min(unread, 1 + Math.floor(latest / p.start)) - 1;
  const rests = tests.map((a) => p.restFrom[a * p.stride + 1] ?? 0).sort((a, b) => b - a);
  let fillable = others + withOthers.size * p.gloves + readings * p.read + (rests[0] ?? 0);
  let best = work + Math.max(0, p.lagMin - fillable);
  if (!p.split) return best;
  for (let again = 1; again < rests.length; again += 1) {
    fillable += (rests[again] ?? 0) + p.refetch;
    best = Math.min(best, work + again * p.refetch + Math.max(0, p.lagMin - fillable));
  }
  return best;
}

/** With at most K tests running, the incubations of every K-th test come one after another. */
function limit(p: Problem, root: Node, tests: readonly number[]): number {
  if (p.instance.test.runningLimit === null) return 0;
  const unread = kitsOf(p, tests) + root.waiting.length;
  const first = root.waiting.length > 0 ? 0 : Math.min(...tests.map((a) => drawOf(p, root, a)));
  const gloves = root.waiting.length > 0 || root.litter >= 0 ? 0 : p.gloves;
  return root.time + gloves + first + p.start + Math.ceil(unread / p.limit) * p.lagMin + p.read;
}

/** The bound that decides, as a sentence. */
export const bindsInWords = (bounds: Bounds): Said => said(`plan.binds.${bounds.binds}`);
