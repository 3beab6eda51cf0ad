import type { Instance, PlanAnimal, Step } from '../../../src/core/route-plan/model/instance.js';
import { type KitClock, kitClockOf, kitsInOrder } from '../../../src/core/route-plan/model/kits.js';
import { peakRunning, spreadOf } from '../../../src/core/route-plan/search/steps.js';

export const peopleKinds = ['careful', 'answers-timers', 'waits-for-each'] as const;
/**
 * Three people to compare a plan with, all in the order of the sheet (reference/planning.json, `policies`):
 * the careful one looks ahead and reads in time; one answers timers when they have rung; one waits for each test.
 */
export type Person = (typeof peopleKinds)[number];

export interface ByHand {
  readonly end: number;
  readonly spread: number;
  readonly peakRunning: number;
  readonly missed: number;
  /** False when blood waited longer for its test than it may. */
  readonly feasible: boolean;
  readonly steps: readonly Step[];
}

interface Hand {
  time: number;
  missed: number;
  feasible: boolean;
  started: number;
  /** By the opening of their windows. */
  readonly running: {
    readonly animal: string;
    readonly litter: string;
    readonly since: number;
    readonly kit: string | undefined;
  }[];
  readonly clock: KitClock;
  readonly steps: Step[];
}

/** How one person would do the section with every step exactly as long as planned. */
export function byHand(instance: Instance, person: Person): ByHand {
  const hand: Hand = {
    time: 0,
    missed: 0,
    feasible: true,
    started: 0,
    running: [],
    clock: kitClockOf(instance),
    steps: [],
  };
  const kits = [...(instance.kitReadyAt ?? [])].sort((a, b) => a - b);
  const looksAhead = person !== 'answers-timers';
  const step = (
    is: Step['is'],
    litter: string,
    animal: string | null,
    kind: string,
    op: number | null,
    length: number,
  ) => {
    comeFirst(instance, hand, length, looksAhead);
    put(hand, { is, litter, animal, kind, op, start: hand.time, duration: length });
  };
  for (const litter of instance.litters) {
    step('gloves', litter.id, null, 'glove-change', null, instance.gloveChange);
    for (const animal of litter.animals) {
      for (const [op, one] of animal.ops.entries()) {
        step('handling', litter.id, animal.id, one.kind, op, one.dur + (op === 0 ? instance.fetch : 0));
        if (op === 0) startTests(instance, hand, kits, litter.id, animal, looksAhead);
      }
      if (person === 'waits-for-each') while (hand.running.length > 0) read(instance, hand);
    }
  }
  while (hand.running.length > 0) read(instance, hand);
  const { steps, missed, feasible } = hand;
  return { end: hand.time, spread: spreadOf(steps), peakRunning: peakRunning(steps), missed, feasible, steps };
}

function startTests(
  instance: Instance,
  hand: Hand,
  kits: readonly number[],
  litter: string,
  animal: PlanAnimal,
  looksAhead: boolean,
): void {
  const drawn = hand.time;
  for (const kit of kitsInOrder(animal, hand.clock)) {
    startTest(instance, hand, kits, litter, animal.id, kit, drawn, looksAhead);
  }
}

function startTest(
  instance: Instance,
  hand: Hand,
  kits: readonly number[],
  litter: string,
  animal: string,
  kit: string | undefined,
  drawn: number,
  looksAhead: boolean,
): void {
  const { test } = instance;
  while (hand.running.length >= (test.runningLimit ?? Number.MAX_SAFE_INTEGER)) read(instance, hand);
  const ready = kits[hand.started] ?? 0;
  while (hand.time < ready && (hand.running[0]?.since ?? ready) + hand.clock.lagMin <= ready) read(instance, hand);
  hand.time = Math.max(hand.time, ready);
  comeFirst(instance, hand, test.start, looksAhead);
  if (hand.time > drawn + test.sampleHoldMax) hand.feasible = false;
  put(hand, {
    is: 'start-test',
    litter,
    animal,
    kind: 'start-test',
    op: null,
    start: hand.time,
    duration: test.start,
    ...(kit === undefined ? {} : { kit }),
  });
  hand.started += 1;
  hand.running.push({ animal, litter, since: hand.time + hand.clock.later(kit), kit });
  hand.running.sort((a, b) => a.since - b.since);
}

/** Tests that can be read are read before the next step; who looks ahead also waits where the step would be too long. */
function comeFirst(instance: Instance, hand: Hand, length: number, looksAhead: boolean): void {
  for (;;) {
    const first = hand.running[0];
    if (first === undefined) return;
    const open = first.since + hand.clock.lagMin <= hand.time;
    if (!open && !(looksAhead && tooLong(instance, hand, length))) return;
    read(instance, hand);
  }
}

function tooLong(instance: Instance, hand: Hand, length: number): boolean {
  let time = hand.time + length;
  for (const { since } of hand.running) {
    time = Math.max(time, since + hand.clock.lagMin);
    if (time > since + hand.clock.lagMax) return true;
    time += instance.test.read;
  }
  return false;
}

function read(instance: Instance, hand: Hand): void {
  const first = hand.running.shift();
  if (first === undefined) return;
  const start = Math.max(hand.time, first.since + hand.clock.lagMin);
  if (start > first.since + hand.clock.lagMax) hand.missed += 1;
  const { litter, animal, kit } = first;
  const duration = instance.test.read;
  put(hand, {
    is: 'reading',
    litter,
    animal,
    kind: 'read',
    op: null,
    start,
    duration,
    ...(kit === undefined ? {} : { kit }),
  });
}

function put(hand: Hand, step: Step): void {
  hand.steps.push(step);
  hand.time = step.start + step.duration;
}
