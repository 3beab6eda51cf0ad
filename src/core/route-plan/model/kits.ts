import type { Instance, PlanAnimal } from './instance.js';

/**
 * Windows of different kits on one clock. A kit that opens later counts as started later by the difference, so that all
 * have the same time to their opening; of windows of different width each is taken as wide as the narrowest. A plan that
 * keeps these keeps every kit's own window.
 */
export interface KitClock {
  /** A reading starts at least and at most this long after the end of starting, as counted. */
  readonly lagMin: number;
  readonly lagMax: number;
  /** How much later than it was a start of this kind counts; 0 for the kind that opens first. */
  readonly later: (kit: string | undefined) => number;
}

export function kitClockOf({ test, litters }: Pick<Instance, 'test' | 'litters'>): KitClock {
  const usual = { readLagMin: test.readLagMin, readLagMax: test.readLagMax };
  const own = test.windows;
  if (own === undefined) return { lagMin: usual.readLagMin, lagMax: usual.readLagMax, later: () => 0 };
  const windowOf = (kit: string | undefined) => (kit === undefined ? undefined : own[kit]) ?? usual;
  const used = new Set(
    litters.flatMap(({ animals }) => animals.flatMap((one) => (one.tested ? (one.kits ?? [undefined]) : []))),
  );
  const windows = used.size === 0 ? [usual] : [...used].map(windowOf);
  const lagMin = Math.min(...windows.map((one) => one.readLagMin));
  const width = Math.min(...windows.map((one) => one.readLagMax - one.readLagMin));
  return { lagMin, lagMax: lagMin + width, later: (kit) => windowOf(kit).readLagMin - lagMin };
}

/** The kits of an animal in the order in which they are started: the one that runs longest first. */
export function kitsInOrder(animal: Pick<PlanAnimal, 'tested' | 'kits'>, clock: KitClock): (string | undefined)[] {
  if (!animal.tested) return [];
  return [...(animal.kits ?? [undefined])].sort((a, b) => clock.later(b) - clock.later(a));
}
