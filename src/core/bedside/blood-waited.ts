import { Temporal } from 'temporal-polyfill';

/**
 * Whole minutes that blood has waited, where that is longer than it may; null while it is not. The last minute that is
 * allowed counts whole. What it may wait is the round's own setting (`ROUND-R100`).
 */
export function bloodWaited(drawnAt: string | null, now: string, limit_min: number): number | null {
  if (drawnAt === null) return null;
  const minutes = Math.floor(Temporal.Instant.from(drawnAt).until(Temporal.Instant.from(now)).total('minutes'));
  return minutes > limit_min ? minutes : null;
}
