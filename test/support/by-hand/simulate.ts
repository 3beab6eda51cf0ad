import type { Chance } from '../../../src/core/route-plan/model/chance.js';
import { bringing, type Instance } from '../../../src/core/route-plan/model/instance.js';
import { kitClockOf, kitsInOrder } from '../../../src/core/route-plan/model/kits.js';
import {
  type AnimalState,
  atStart,
  type RunState,
  type Sample,
  samplesOf,
  withSamples,
} from '../../../src/core/route-plan/model/run-state.js';
import type { Acting, Intent } from './acting.js';

/** What chance does to a round: the same for every way of working that it is tried on. */
export interface Luck {
  /** How many times its planned length an operation takes. */
  readonly stretch: (name: string) => number;
  /** Whether this attempt at a draw gives no blood. */
  readonly fails: (name: string) => boolean;
  /** Length of the interruption that comes while this is done, or 0. */
  readonly interruption: (name: string, length: number) => number;
}

export interface Simulated {
  readonly end: number;
  /** Length of everything that was really done, by the treater or beside him, interruptions included. */
  readonly work: number;
  readonly readings: number;
  readonly missed: number;
  /** Samples that waited longer than they may. */
  readonly stale: number;
  readonly interruptions: number;
  readonly failedDraws: number;
  readonly testsLeftOut: number;
}

export interface Happenings {
  /** Whether people can say "in a moment" to an interruption; if not it takes them at once. */
  readonly canWait: boolean;
  /** Draws tried on one animal before its test is left out. */
  readonly attempts: number;
}

const usual: Happenings = { canWait: true, attempts: 2 };

/**
 * One round as it might really go: steps take as long as luck has it, draws fail, people are interrupted, and `acting`
 * decides at every moment what is done next. Readings take their planned time. Of holders counted apart there is one.
 */
export function simulate(instance: Instance, acting: Acting, luck: Luck, happenings: Happenings = usual): Simulated {
  const byId = new Map(
    instance.litters.flatMap((litter) => litter.animals.map((animal) => [animal.id, { animal, litter }] as const)),
  );
  let state: RunState = {
    ...atStart,
    animals: [...byId.keys()].map((id): AnimalState => ({ id, done: 0, sample: null, leave: 'nothing' })),
  };
  const kits = [...(instance.kitReadyAt ?? [])].sort((a, b) => a - b);
  const tries = new Map<string, number>();
  const clock = kitClockOf(instance);
  const total = { work: 0, readings: 0, missed: 0, stale: 0, interruptions: 0, failedDraws: 0, testsLeftOut: 0 };
  let waitingInterruption = 0;

  const stateOf = (id: string): AnimalState =>
    state.animals.find((one) => one.id === id) ?? { id, done: 0, sample: null, leave: 'nothing' };
  const change = (id: string, by: Partial<AnimalState>): void => {
    state = { ...state, animals: state.animals.map((one) => (one.id === id ? { ...one, ...by } : one)) };
  };
  type Blood<Is extends Sample['is']> = Extract<Sample, { is: Is }>;
  /** The animal's blood in this state of the kind meant; `become` says what has become of it. */
  const bloodOf = <Is extends Sample['is']>(id: string, is: Is, kit: string | undefined): Blood<Is> | undefined =>
    samplesOf(stateOf(id)).find(
      (one): one is Blood<Is> => one.is === is && (kit === undefined || one.kit === undefined || one.kit === kit),
    );
  const become = (id: string, was: Sample, now: Sample): void =>
    change(
      id,
      withSamples(
        stateOf(id),
        samplesOf(stateOf(id)).map((one) => (one === was ? now : one)),
      ),
    );
  const pass = (length: number): void => {
    total.work += length;
    state = { ...state, now: state.now + length };
  };

  for (let steps = 0; steps < 20_000; steps += 1) {
    if (waitingInterruption > 0 && (!happenings.canWait || acting.canLeave(state, waitingInterruption))) {
      pass(waitingInterruption);
      waitingInterruption = 0;
    }
    const intent = acting.next(state);
    if (intent === null) break;
    doIt(intent);
  }
  pass(waitingInterruption);
  return { end: state.now, ...total };

  function doIt(intent: Intent): void {
    if (intent.from !== undefined) state = { ...state, now: Math.max(state.now, intent.from) };
    if (intent.is === 'reading') {
      const sample = bloodOf(intent.animal, 'running', intent.kit);
      if (sample === undefined) throw new Error(`nothing to read for ${intent.animal}`);
      const since = sample.since + clock.later(sample.kit);
      state = { ...state, now: Math.max(state.now, since + clock.lagMin) };
      total.readings += 1;
      if (state.now > since + clock.lagMax) total.missed += 1;
      pass(instance.test.read);
      become(intent.animal, sample, { ...named(sample.kit), is: 'read' });
      return;
    }
    if (intent.is === 'gloves') {
      const before = state.now;
      const own = takes(`gloves ${intent.litter}`, instance.gloveChange) - before;
      const holderFrom = (state.holderFrom ?? 0) + own;
      state = { ...state, openLitter: intent.litter, openAnimal: null, holderFrom };
      return;
    }
    if (intent.is === 'start-test') {
      const sample = bloodOf(intent.animal, 'waiting', intent.kit);
      if (sample === undefined) throw new Error(`nothing to start for ${intent.animal}`);
      state = { ...state, now: Math.max(state.now, kits[state.kitsUsed] ?? 0) };
      if (state.now > sample.since + instance.test.sampleHoldMax) total.stale += 1;
      const own = takes(`start ${intent.animal}`, instance.test.start);
      become(intent.animal, sample, { ...named(sample.kit), is: 'running', since: own });
      state = { ...state, kitsUsed: state.kitsUsed + 1 };
      return;
    }
    handle(intent.animal);
  }

  function handle(id: string): void {
    const known = byId.get(id);
    const own = stateOf(id);
    const op = own.leave === 'test' && own.done === 0 ? 1 : own.done;
    const one = known?.animal.ops[op];
    if (known === undefined || one === undefined) throw new Error(`nothing left to do for ${id}`);
    const again = state.openAnimal !== id;
    const back = again && instance.splitVisitAllowed && known.animal.tested && op === 1 && own.leave === 'nothing';
    const attempt = tries.get(id) ?? 0;
    const name = `${id} ${op}${attempt > 0 && op === 0 ? ` again ${attempt}` : ''}`;
    const bring = bringing(instance, back);
    if (again && instance.holders !== undefined) {
      // He puts back what is out, and sets out for this one, as soon as his hands are free.
      const free = state.openAnimal === null ? (state.holderFrom ?? 0) : state.now;
      const way = lengthOf(`${name} way`, bring.beside);
      total.work += way;
      state = { ...state, now: Math.max(state.now, free + way) };
    }
    const ended = takes(name, one.dur + (again ? bring.together : 0));
    state = { ...state, openAnimal: id, openLitter: known.litter.id };
    const isDraw = known.animal.tested && op === 0;
    if (isDraw && luck.fails(name)) {
      total.failedDraws += 1;
      tries.set(id, attempt + 1);
      if (attempt + 1 < happenings.attempts) return;
      total.testsLeftOut += 1;
      change(id, { leave: 'test', done: 1 });
    } else if (isDraw) {
      const blood = kitsInOrder(known.animal, clock).map(
        (kit): Sample => ({ ...named(kit), is: 'waiting', since: ended }),
      );
      change(id, withSamples({ ...own, done: 1 }, blood));
    } else change(id, { done: op + 1 });
    if (stateOf(id).done === known.animal.ops.length) state = { ...state, openAnimal: null, holderFrom: ended };
  }

  function lengthOf(name: string, planned: number): number {
    return Math.max(planned === 0 ? 0 : 1, Math.round(planned * luck.stretch(name)));
  }

  /** Gives the end of the step itself; an interruption that cannot wait comes right after it. */
  function takes(name: string, planned: number): number {
    const length = lengthOf(name, planned);
    pass(length);
    const ended = state.now;
    const interruption = luck.interruption(name, length);
    if (interruption > 0) {
      total.interruptions += 1;
      waitingInterruption += interruption;
    }
    return ended;
  }
}

const named = (kit: string | undefined) => (kit === undefined ? {} : { kit });

/** From 0.7 over 1 to 2 times the planned length, most often near 1; the mean is 1.23. An assumption, no source. */
export function triangular(chance: Chance, low = 0.7, mode = 1, high = 2): number {
  const u = chance.next();
  const cut = (mode - low) / (high - low);
  return u < cut
    ? low + Math.sqrt(u * (high - low) * (mode - low))
    : high - Math.sqrt((1 - u) * (high - low) * (high - mode));
}
