import type { Instance, PlanAnimal, Step } from './instance.js';
import { peakRunning, spreadOf } from './steps.js';

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
  readonly running: { readonly animal: string; readonly litter: string; readonly since: number }[];
  readonly steps: Step[];
}

/** How one person would do the section with every step exactly as long as planned. */
export function byHand(instance: Instance, person: Person): ByHand {
  const hand: Hand = { time: 0, missed: 0, feasible: true, started: 0, running: [], steps: [] };
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
        if (animal.tested && op === 0) startTest(instance, hand, kits, litter.id, animal, looksAhead);
      }
      if (person === 'waits-for-each') while (hand.running.length > 0) read(instance, hand);
    }
  }
  while (hand.running.length > 0) read(instance, hand);
  const { steps, missed, feasible } = hand;
  return { end: hand.time, spread: spreadOf(steps), peakRunning: peakRunning(steps), missed, feasible, steps };
}

function startTest(
  instance: Instance,
  hand: Hand,
  kits: readonly number[],
  litter: string,
  animal: PlanAnimal,
  looksAhead: boolean,
): void {
  const { test } = instance;
  const drawn = hand.time;
  while (hand.running.length >= (test.runningLimit ?? Number.MAX_SAFE_INTEGER)) read(instance, hand);
  const ready = kits[hand.started] ?? 0;
  while (hand.time < ready && (hand.running[0]?.since ?? ready) + test.readLagMin <= ready) read(instance, hand);
  hand.time = Math.max(hand.time, ready);
  comeFirst(instance, hand, test.start, looksAhead);
  if (hand.time > drawn + test.sampleHoldMax) hand.feasible = false;
  put(hand, {
    is: 'start-test',
    litter,
    animal: animal.id,
    kind: 'start-test',
    op: null,
    start: hand.time,
    duration: test.start,
  });
  hand.started += 1;
  hand.running.push({ animal: animal.id, litter, since: hand.time });
}

/** Tests that can be read are read before the next step; who looks ahead also waits where the step would be too long. */
function comeFirst(instance: Instance, hand: Hand, length: number, looksAhead: boolean): void {
  for (;;) {
    const first = hand.running[0];
    if (first === undefined) return;
    const open = first.since + instance.test.readLagMin <= hand.time;
    if (!open && !(looksAhead && tooLong(instance, hand, length))) return;
    read(instance, hand);
  }
}

function tooLong(instance: Instance, hand: Hand, length: number): boolean {
  let time = hand.time + length;
  for (const { since } of hand.running) {
    time = Math.max(time, since + instance.test.readLagMin);
    if (time > since + instance.test.readLagMax) return true;
    time += instance.test.read;
  }
  return false;
}

function read(instance: Instance, hand: Hand): void {
  const first = hand.running.shift();
  if (first === undefined) return;
  const start = Math.max(hand.time, first.since + instance.test.readLagMin);
  if (start > first.since + instance.test.readLagMax) hand.missed += 1;
  const { litter, animal } = first;
  put(hand, { is: 'reading', litter, animal, kind: 'read', op: null, start, duration: instance.test.read });
}

function put(hand: Hand, step: Step): void {
  hand.steps.push(step);
  hand.time = step.start + step.duration;
}
