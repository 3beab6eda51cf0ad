import { chanceFrom } from './chance.js';
import { bringing, type Instance, needsTwo as needsBoth, type PlanAnimal } from './instance.js';
import { type KitClock, kitClockOf, kitsInOrder } from './kits.js';
import { atStart, type RunState, samplesOf, startedIn } from './run-state.js';

/** Bit in an animal's progress: drawn, put back, and still to be fetched again. */
export const putBack = 64;

/**
 * An instance (and how far it has got) as flat numbers. The search judges some hundred thousand moves a second; typed
 * arrays and whole-number keys keep each judgement at about a microsecond.
 */
export interface Problem {
  readonly instance: Instance;
  readonly animals: readonly PlanAnimal[];
  readonly litterOf: Uint8Array;
  /** Animals of litter l are `litterFrom[l]` up to, not including, `litterFrom[l + 1]`. */
  readonly litterFrom: Int32Array;
  /** Whether a test of this animal is still to be drawn or is under way; 0 also when it was dropped. */
  readonly tested: Uint8Array;
  /** Kits run from each animal's one draw, how much later each counts as started, and their kinds. */
  readonly kitsFrom: Uint8Array;
  /** All of them, those under way too. */
  readonly tests: number;
  readonly laterOf: readonly (readonly number[])[];
  readonly kindsOf: readonly (readonly (string | undefined)[])[];
  readonly clock: KitClock;
  readonly opCount: Uint8Array;
  /** First handling operation that is not left out. */
  readonly firstOp: Uint8Array;
  /** Lengths and two-people flags at `animal * stride + operation`; suffix sums of lengths in `restFrom`. */
  readonly stride: number;
  readonly lengths: Int32Array;
  readonly needsTwo: Uint8Array;
  readonly restFrom: Int32Array;
  /** Same number for animals of one litter that differ in name only. */
  readonly classOf: Int32Array;
  readonly litterClass: Int32Array;
  readonly litterCount: number;
  readonly gloves: number;
  readonly fetch: number;
  readonly refetch: number;
  /** Holders counted apart from the treater, 0 when the team is one. */
  readonly holders: number;
  /** A holder's way alone, beside what `fetch` and `refetch` take of the treater's time. */
  readonly fetchBeside: number;
  readonly refetchBeside: number;
  readonly split: boolean;
  readonly start: number;
  readonly read: number;
  readonly lagMin: number;
  readonly lagMax: number;
  readonly hold: number;
  readonly limit: number;
  /** Ready time of the k-th kit that is still to be used; empty when all are ready. */
  readonly kits: Int32Array;
  readonly twoFrom: number;
  readonly began: RunState;
  /** How much longer than planned an operation may take without a reading being missed. */
  readonly rho: number;
  /** And so much longer still, for an interruption that cannot be put off. */
  readonly reserve: number;
  /** At most so many tests can still be unread when the last one has been started. */
  readonly atOnce: number;
  /** Random numbers at `class * 2 * stride + progress` (`+ stride` when put back), whose sums tell states apart. */
  readonly keys: Int32Array;
  readonly otherKeys: Int32Array;
}

export const noLimit = 1000;

/** Flatten an instance and the state it is in. `rho` of 1 plans with the lengths as they are. */
export function problemOf(instance: Instance, rho: number, state: RunState = atStart, reserve = 0): Problem {
  const animals = instance.litters.flatMap((litter) => litter.animals);
  const count = animals.length;
  const stride = Math.max(...animals.map((animal) => animal.ops.length)) + 1;
  const litterOf = new Uint8Array(count);
  const tested = new Uint8Array(count);
  const opCount = new Uint8Array(count);
  const firstOp = new Uint8Array(count);
  const lengths = new Int32Array(count * stride);
  const needsTwo = new Uint8Array(count * stride);
  const restFrom = new Int32Array(count * stride);
  const states = new Map(state.animals.map((one) => [one.id, one]));
  const signatures: string[] = [];
  const clock = kitClockOf(instance);
  const kitsFrom = new Uint8Array(count);
  const kindsOf: (string | undefined)[][] = [];
  let at = 0;
  for (const [l, litter] of instance.litters.entries()) {
    for (const animal of litter.animals) {
      const own = states.get(animal.id);
      const gone = own?.leave === 'everything';
      const dropped =
        gone || own?.leave === 'test' || (own !== undefined && own.done > 0 && samplesOf(own).length === 0);
      litterOf[at] = l;
      tested[at] = animal.tested && (!dropped || (own !== undefined && samplesOf(own).length > 0)) ? 1 : 0;
      kindsOf[at] = tested[at] === 1 ? kitsInOrder(animal, clock) : [];
      kitsFrom[at] = kindsOf[at]?.length ?? 0;
      opCount[at] = animal.ops.length;
      const done = gone ? animal.ops.length : (own?.done ?? 0);
      firstOp[at] = animal.tested && dropped && done === 0 ? 1 : done;
      for (let op = animal.ops.length - 1; op >= 0; op -= 1) {
        const one = animal.ops[op];
        if (one === undefined) continue;
        lengths[at * stride + op] = one.dur;
        needsTwo[at * stride + op] = needsBoth(one) ? 1 : 0;
        restFrom[at * stride + op] = (restFrom[at * stride + op + 1] ?? 0) + one.dur;
      }
      const shape = animal.ops.map((one, op) => `${one.dur}${needsTwo[at * stride + op] === 1 ? 't' : ''}`);
      signatures.push(
        `${l}/${tested[at] === 1 ? (kindsOf[at]?.join('+') ?? '') || '+' : ''}/${firstOp[at]}/${shape.join(',')}`,
      );
      at += 1;
    }
  }
  const { test } = instance;
  const used = Math.max(state.kitsUsed, startedIn(state));
  const [fetched, again] = [bringing(instance), bringing(instance, true)];
  const kits = Int32Array.from([...(instance.kitReadyAt ?? [])].sort((a, b) => a - b).slice(used));
  const litterFrom = new Int32Array(instance.litters.length + 1);
  for (const [l, litter] of instance.litters.entries())
    litterFrom[l + 1] = (litterFrom[l] ?? 0) + litter.animals.length;
  const litterShapes = instance.litters.map((_, l) =>
    signatures
      .filter((one) => one.startsWith(`${l}/`))
      .map((one) => one.slice(one.indexOf('/')))
      .sort()
      .join(';'),
  );
  const bare = {
    instance,
    animals,
    litterOf,
    litterFrom,
    tested,
    kitsFrom,
    kindsOf,
    tests: Math.max(
      count,
      kitsFrom.reduce((sum, own) => sum + own, 0) + state.animals.reduce((sum, one) => sum + samplesOf(one).length, 0),
    ),
    laterOf: kindsOf.map((kinds) => kinds.map(clock.later)),
    clock,
    opCount,
    firstOp,
    stride,
    lengths,
    needsTwo,
    restFrom,
    classOf: numbered(signatures),
    litterClass: numbered(litterShapes),
    litterCount: instance.litters.length,
    gloves: instance.gloveChange,
    fetch: fetched.together,
    refetch: again.together,
    holders: instance.holders ?? 0,
    fetchBeside: fetched.beside,
    refetchBeside: again.beside,
    split: instance.splitVisitAllowed,
    start: test.start,
    read: test.read,
    lagMin: clock.lagMin,
    lagMax: clock.lagMax,
    hold: test.sampleHoldMax,
    limit: test.runningLimit ?? noLimit,
    kits,
    twoFrom: state.secondPersonFrom,
    began: state,
    rho,
    reserve,
    keys: keysFor(count * 2 * stride, 1),
    otherKeys: keysFor(count * 2 * stride, 2),
  };
  return { ...bare, atOnce: mostUnread(bare) };
}

function numbered(names: readonly string[]): Int32Array {
  const order = new Map<string, number>();
  return Int32Array.from(names, (name) => {
    const known = order.get(name);
    if (known !== undefined) return known;
    order.set(name, order.size);
    return order.size - 1;
  });
}

function keysFor(count: number, seed: number): Int32Array {
  const chance = chanceFrom(seed);
  return Int32Array.from({ length: count }, () => Math.floor(chance.next() * 4_294_967_296) | 0);
}

/**
 * How many tests (the last one included) can be unread when the last one has been started. Of m such tests the first
 * was drawn at most hold + start + lagMax before; since then m starts, m-1 draws and the rest of m-1 visits were done.
 * Where several kits are run from one draw, m tests may come from fewer animals.
 */
function mostUnread(p: Omit<Problem, 'atOnce'>): number {
  const draws: number[] = [];
  const rests: number[] = [];
  for (let a = 0; a < p.animals.length; a += 1) {
    if (p.tested[a] !== 1 || (p.firstOp[a] ?? 0) > 0) continue;
    draws.push(p.fetch + (p.lengths[a * p.stride] ?? 0));
    rests.push(p.split ? 0 : (p.restFrom[a * p.stride + 1] ?? 0));
  }
  draws.sort((a, b) => a - b);
  rests.sort((a, b) => a - b);
  const apiece = Math.max(1, ...p.kitsFrom);
  const room = p.lagMax + p.start + p.hold + Math.max(0, ...p.laterOf.flat());
  let used = p.start;
  let most = 1;
  while (most < draws.length * apiece && used <= room) {
    const animals = Math.ceil((most + 1) / apiece);
    const another = animals > Math.ceil(most / apiece);
    used += p.start + (another ? (draws[animals - 2] ?? 0) + (rests[animals - 2] ?? 0) : 0);
    if (used <= room) most += 1;
  }
  return Math.max(1, Math.min(most, p.limit === noLimit ? noLimit : p.limit + 1));
}
