import { secondsUntil } from '../../core/point-of-care/kit.js';
import type { Step } from '../../core/route-plan/model/instance.js';
import { type AnimalState, type Sample, withSamples } from '../../core/route-plan/model/run-state.js';
import { isLeft } from '../views/round/is-left.js';
import type { AnimalStop, RoundLine, SectionStop } from '../views/round/round.js';
import type { World } from '../views/world.js';
import { kindOf, type Line, needsPair, operationsOf } from './operations.js';
import { unitSeconds } from './settings.js';
import type { PlannedAnimal, PlannedStop } from './stop.js';
import type { ShortTests } from './supplies.js';

/** What is left of a stop, as the planner's animals and the states they are in. */
export interface LeftToDo {
  readonly stop: PlannedStop;
  readonly states: AnimalState[];
  /** The old plan's steps with the numbers that the operations have now; what is done is left out. */
  readonly renumbered: (steps: readonly Step[]) => Step[];
}

/** What is not done today though it is open: tests for which something is short, and what needs two for who is alone. */
export interface NotToday {
  readonly short: Pick<ShortTests, 'isLeft'>;
  readonly alone: boolean;
}
const nothing: NotToday = { short: { isLeft: () => false }, alone: false };

/** A stop of a round as far as it has come. `zero`: the instant that the planner's times count from. */
export function leftToDo(world: World, at: SectionStop, zero: string, notToday: NotToday = nothing): LeftToDo {
  // Rounded down, so that a window that began within a unit never seems to close later than it does.
  const units = (instant: string): number => Math.max(0, Math.floor(secondsUntil(zero, instant) / unitSeconds));
  const animals: PlannedAnimal[] = [];
  const states: AnimalState[] = [];
  const places = new Map<string, Map<number, number>>();
  for (const stop of at.animals) {
    const one = leftOf(world, stop, units, notToday);
    if (one === null) continue;
    animals.push({ animal: stop.animal, lines: one.lines, overdueDays: 0 });
    states.push(one.state);
    places.set(stop.animal.id, one.places);
  }
  return {
    stop: { section: at.section, animals },
    states,
    renumbered: (steps) =>
      steps.flatMap((step) => {
        if (step.op === null) return step.animal === null || places.has(step.animal) ? [step] : [];
        const op = places.get(step.animal ?? '')?.get(step.op);
        return op === undefined ? [] : [{ ...step, op }];
      }),
  };
}

function leftOf(
  world: World,
  { animal, lines: planned }: AnimalStop,
  units: (instant: string) => number,
  notToday: NotToday,
): { readonly lines: Line[]; readonly state: AnimalState; readonly places: Map<number, number> } | null {
  const asLine = (line: RoundLine): Line => ({
    schedule: line.schedule,
    action: line.action,
    kind: kindOf(world, line.schedule, line.action, null),
  });
  // What cannot be done is not done today, as if people had said so.
  const cannot = (line: RoundLine): boolean =>
    (notToday.alone && needsPair(line)) || (line.action === 'test' && notToday.short.isLeft(animal.id, line.schedule));
  const lines = planned.map(
    (line): RoundLine => (line.state === 'open' && cannot(line) ? { ...line, state: 'not-done' } : line),
  );
  const tests = lines.filter((line) => line.action === 'test');
  const open = lines.filter((line) => line.action !== 'test' && isLeft(line));
  const under = tests.filter((line) => line.state === 'running');
  const toDraw = tests.filter((line) => line.state === 'open');
  const left = tests.filter((line) => line.state === 'not-done');
  const kept = under.length > 0 ? under : toDraw.length > 0 ? toDraw : left;
  const nothingDone = lines.length > 0 && lines.every((line) => line.state === 'not-done');
  // What comes before a draw counts into it only while it is still to be done.
  const inOrder = under.length === 0 && toDraw.length > 0;
  const some = inOrder ? lines.filter((line) => kept.includes(line) || open.includes(line)) : [...kept, ...open];
  // Blood that did not reach for the other test is drawn once more: time for the pair, its clock is planned once it is drawn.
  const again = under.length > 0 ? toDraw.map((line): Line => ({ ...asLine(line), action: 'give' })) : [];
  const now = [...(nothingDone ? lines : some).map(asLine), ...again];
  if (now.length === 0) return null;
  const state: AnimalState = { id: animal.id, done: 0, sample: null, leave: 'nothing' };
  return {
    lines: now,
    state: nothingDone
      ? { ...state, leave: 'everything' }
      : stateOf(state, under, toDraw.length > 0, left.length > 0, units),
    places: placesOf(lines.map(asLine), now),
  };
}

function stateOf(
  state: AnimalState,
  under: readonly RoundLine[],
  toDraw: boolean,
  left: boolean,
  units: (instant: string) => number,
): AnimalState {
  const blood = under.flatMap(({ schedule, run }): Sample[] => {
    if (run?.startedAt != null) return [{ is: 'running', since: units(run.startedAt), kit: schedule }];
    return run?.drawnAt == null ? [] : [{ is: 'waiting', since: units(run.drawnAt), kit: schedule }];
  });
  if (blood.length > 0) return withSamples({ ...state, done: 1 }, blood);
  return left && !toDraw ? { ...state, leave: 'test' } : state;
}

/** Number of each operation in the old plan to its number now, by the lines it does. */
function placesOf(before: readonly Line[], now: readonly Line[]): Map<number, number> {
  const old = operationsOf(before);
  const places = new Map<number, number>();
  for (const [to, operation] of operationsOf(now).entries()) {
    const from = old.findIndex((one) =>
      one.lines.some((line) => operation.lines.some((other) => other.schedule === line.schedule)),
    );
    if (from >= 0 && !places.has(from)) places.set(from, to);
  }
  return places;
}
