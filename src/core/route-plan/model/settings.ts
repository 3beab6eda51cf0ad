import type { Instance } from './instance.js';

/**
 * What a shelter can set, as measured (docs/benchmarks.md): two tests at once cost next to nothing against any number
 * and are what people can keep in mind; blood that may wait four minutes saves most of the time animals are kept out;
 * putting back and fetching again saves little and doubles the captures; a holder who fetches the next animal while a
 * test is started or read makes a round five to seven per cent shorter.
 */
export interface PlanSettings {
  readonly runningLimit: number | null;
  readonly sampleHoldMinutes: number;
  readonly putBackAllowed: boolean;
  /** The holder of a team of two puts back and fetches while only the treater is needed. */
  readonly holderFetches: boolean;
}

export const usualSettings: PlanSettings = {
  runningLimit: 2,
  sampleHoldMinutes: 4,
  putBackAllowed: false,
  holderFetches: true,
};

/** The section under these settings; minutes become whole units, rounded down. */
export function withSettings(instance: Instance, settings: PlanSettings): Instance {
  const sampleHoldMax = Math.floor((settings.sampleHoldMinutes * 60) / instance.unitSeconds);
  const { holders: _, ...bare } = instance;
  return {
    ...bare,
    ...(settings.holderFetches ? { holders: 1 } : {}),
    splitVisitAllowed: settings.putBackAllowed,
    test: { ...instance.test, sampleHoldMax, runningLimit: settings.runningLimit },
  };
}
