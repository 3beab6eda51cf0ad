import type { Instance } from './instance.js';

/**
 * Assumed lengths in seconds until the shelter has its own. Common practice, no source: no published times per task
 * were found (one source says to time a pilot round and keep the medians).
 */
export const assumedSeconds: Readonly<Record<string, number>> = {
  'glove-change': 60,
  fetch: 60,
  refetch: 90,
  confirm: 30,
  weigh: 30,
  draw: 150,
  chip: 75,
  injection: 45,
  oral: 45,
  topical: 30,
  'start-test': 60,
  read: 60,
};

/** For an operation that nobody has timed and no assumption names. */
const otherwise = 45;
/** From so many recorded times on the shelter's own median counts. */
const enough = 20;

export interface Duration {
  readonly seconds: number;
  readonly from: 'own' | 'assumed';
  /** Times recorded so far. */
  readonly recorded: number;
  /** How many times the usual length 19 of 20 stay below; 2 until there are enough. */
  readonly stretch: number;
}

/** Length of one kind of operation from the seconds recorded for it: the median and the spread once there are 20. */
export function durationOf(kind: string, recordedSeconds: readonly number[]): Duration {
  const own = recordedSeconds.filter((one) => Number.isFinite(one) && one > 0).sort((a, b) => a - b);
  if (own.length < enough)
    return { seconds: assumedSeconds[kind] ?? otherwise, from: 'assumed', recorded: own.length, stretch: 2 };
  const seconds = quantile(own, 0.5);
  return { seconds, from: 'own', recorded: own.length, stretch: quantile(own, 0.95) / seconds };
}

/** Between two neighbours in proportion. */
function quantile(sorted: readonly number[], share: number): number {
  const at = share * (sorted.length - 1);
  const [low, high] = [sorted[Math.floor(at)] ?? 0, sorted[Math.ceil(at)] ?? 0];
  return low + (high - low) * (at - Math.floor(at));
}

/** Whole units, at least one. */
export const inUnits = (seconds: number, unitSeconds: number): number => Math.max(1, Math.round(seconds / unitSeconds));

const finerWindows = (windows: NonNullable<Instance['test']['windows']>, clock: (units: number) => number) =>
  Object.fromEntries(
    Object.entries(windows).map(([kit, { readLagMin, readLagMax }]) => [
      kit,
      { readLagMin: clock(readLagMin), readLagMax: clock(readLagMax) },
    ]),
  );

/**
 * The section with every step but the readings `factor` times as long: when steps usually take longer than the sheet
 * says, planning with what they usually take makes rounds shorter (docs/benchmarks.md), the safety being the same with
 * `rho` divided by `factor`. `finer` cuts the unit of time into so many, so that rounding does not undo it.
 */
export function usuallyTaking(instance: Instance, factor: number, finer = 1): Instance {
  const step = (units: number): number => Math.round(units * factor * finer);
  const clock = (units: number): number => units * finer;
  const { test } = instance;
  return {
    ...instance,
    unitSeconds: instance.unitSeconds / finer,
    gloveChange: step(instance.gloveChange),
    fetch: step(instance.fetch),
    refetch: step(instance.refetch),
    ...(instance.confirm === undefined ? {} : { confirm: Math.min(step(instance.confirm), step(instance.fetch)) }),
    test: {
      ...test,
      start: step(test.start),
      read: clock(test.read),
      readLagMin: clock(test.readLagMin),
      readLagMax: clock(test.readLagMax),
      sampleHoldMax: clock(test.sampleHoldMax),
      ...(test.windows === undefined ? {} : { windows: finerWindows(test.windows, clock) }),
    },
    kitReadyAt: instance.kitReadyAt?.map(clock) ?? null,
    litters: instance.litters.map((litter) => ({
      ...litter,
      animals: litter.animals.map((animal) => ({
        ...animal,
        ops: animal.ops.map((one) => ({ ...one, dur: Math.max(1, step(one.dur)) })),
      })),
    })),
  };
}
