import { bringing, type Instance, type Step } from '../../../src/core/route-plan/model/instance.js';
import { type RunState, samplesOf } from '../../../src/core/route-plan/model/run-state.js';
import { withoutLost } from '../../../src/core/route-plan/replay/lost.js';
import { replan } from '../../../src/core/route-plan/replay/replan.js';
import { type Adds, addsNothing, clockOf, type Sample } from './clock.js';

/** What is done next. `from`: not before this moment, if the plan has it wait. */
export type Intent = { readonly from?: number } & (
  | { readonly is: 'gloves'; readonly litter: string }
  | { readonly is: 'handling'; readonly animal: string }
  | { readonly is: 'start-test' | 'reading'; readonly animal: string; readonly kit?: string | undefined }
);

/** A way of working: what to do next, and whether an interruption of some length can be answered now. */
export interface Acting {
  readonly next: (state: RunState) => Intent | null;
  readonly canLeave: (state: RunState, length: number) => boolean;
}

export interface ByOrder {
  /** How far an operation may stretch before a reading is put first: 0 looks at no clock until it rings. */
  readonly lookAhead: number;
  /** Do exactly the steps in this order, readings too. */
  readonly strict?: boolean;
}

/** Going through a list of steps (a sheet or a plan), reading tests when they ring or, with look-ahead, in time. */
export function byOrder(instance: Instance, order: readonly Step[], { lookAhead, strict = false }: ByOrder): Acting {
  const clock = clockOf(instance);
  const { sampleHoldMax, runningLimit } = instance.test;
  const { lagMin, lagMax } = clock;
  const limit = runningLimit ?? Number.MAX_SAFE_INTEGER;
  const left = leftOf(instance);

  const next = (state: RunState): Intent | null => {
    const step = order.find((one) => left(one, state));
    const running = clock.all(state, 'running');
    const [test] = running;
    const [blood] = clock.all(state, 'waiting');
    if (step?.is === 'reading' || step === undefined || strict)
      return step === undefined ? readIt(test) : asIntent(step, test, blood);
    if (test !== undefined && state.now >= test.since + lagMin) return readIt(test);
    if (lookAhead > 0) {
      const end = state.now + Math.ceil(lengthOf(instance, step, state) * lookAhead);
      if (!clock.fits(state, end, lookAhead, addedBy(instance, step))) {
        const bloodFirst = blood !== undefined && blood.since + sampleHoldMax < (test?.since ?? limit) + lagMax;
        if (bloodFirst && running.length < limit) return { is: 'start-test', animal: blood.id, kit: blood.kit };
        if (test !== undefined) return readIt(test);
      }
    }
    if (step.is === 'start-test' && running.length >= limit) return readIt(test);
    return asIntent(step, test, blood);
  };
  return {
    next,
    canLeave: (state, length) =>
      lookAhead === 0 || strict || clock.fits(state, state.now + length, lookAhead, addsNothing),
  };
}

const readIt = (test: Sample | undefined): Intent | null =>
  test === undefined ? null : { is: 'reading', animal: test.id, kit: test.kit };

function asIntent(step: Step, test: Sample | undefined, blood: Sample | undefined): Intent {
  if (step.is === 'gloves') return { is: 'gloves', litter: step.litter };
  const by = (one: Sample | undefined) =>
    one === undefined ? { animal: step.animal ?? '', kit: step.kit } : { animal: one.id, kit: one.kit };
  if (step.is === 'reading') return { is: 'reading', ...by(test) };
  if (step.is === 'start-test') return { is: 'start-test', ...by(blood) };
  return { is: 'handling', animal: step.animal ?? '' };
}

/** A step of the order that is still to be done: told from the state, so that a failed draw comes up again by itself. */
function leftOf(instance: Instance): (step: Step, state: RunState) => boolean {
  const members = new Map(instance.litters.map((litter) => [litter.id, new Set(litter.animals.map((one) => one.id))]));
  return (step, state) => {
    if (step.is === 'gloves') {
      const own = members.get(step.litter);
      return (
        state.openLitter !== step.litter && !state.animals.some((one) => one.done > 0 && own?.has(one.id) === true)
      );
    }
    const own = state.animals.find((one) => one.id === step.animal);
    if (own === undefined) return false;
    if (step.is === 'handling') return (step.op ?? 0) >= own.done;
    const wanted = step.is === 'reading' ? 'running' : 'waiting';
    return samplesOf(own).some((one) => one.is === wanted && (step.kit === undefined || one.kit === step.kit));
  };
}

function lengthOf(instance: Instance, step: Step, state: RunState): number {
  return step.is === 'handling' && step.op === 0 && state.openAnimal === step.animal
    ? step.duration - bringing(instance).together
    : step.duration;
}

function addedBy(instance: Instance, step: Step): Adds {
  if (step.is === 'start-test') return 'running';
  if (step.is !== 'handling' || step.op !== 0) return addsNothing;
  const animal = instance.litters.flatMap((one) => one.animals).find((one) => one.id === step.animal);
  return animal?.tested === true ? (animal.kits ?? [undefined]) : addsNothing;
}

export interface ByPlanning {
  readonly worthIt?: number;
  readonly reserve?: number;
  readonly rho: number;
  readonly firstWidth: number;
  readonly keepGoing: () => boolean;
}

/** Planning anew from what has really happened whenever a step has ended, the old order kept unless another saves a minute. */
export function byPlanning(instance: Instance, first: readonly Step[], options: ByPlanning): Acting {
  const clock = clockOf(instance);
  let order = first;
  const next = (real: RunState): Intent | null => {
    const { state, lost } = withoutLost(instance, real);
    const kept = new Set(clock.all(state, 'running').map((one) => `${one.id} ${one.kit ?? ''}`));
    const late = clock
      .all(real, 'running')
      .find((one) => lost.includes(one.id) && !kept.has(`${one.id} ${one.kit ?? ''}`));
    if (late !== undefined) return { is: 'reading', animal: late.id, kit: late.kit };
    const replanned = replan(instance, order, { ...options, state });
    const step = replanned?.plan.steps[0];
    if (replanned === null || step === undefined) return null;
    order = replanned.plan.steps;
    return { from: step.start, ...asIntent(step, undefined, undefined) };
  };
  return { next, canLeave: (state, length) => clock.fits(state, state.now + length, options.rho, addsNothing) };
}
