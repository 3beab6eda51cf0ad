import type { Instance } from '../../src/core/route-plan/model/instance.js';

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
