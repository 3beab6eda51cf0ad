import { secondsUntil } from '../../../core/point-of-care/kit.js';
import type { World } from '../world.js';

/** Tests of another shift are not counted; as on the phone. */
const sameShift_s = 12 * 3600;

/** Kits that are out of the cold and not used up: when each is warm, in seconds from an instant (below 0 already warm). */
export function warmFrom(world: World, kitTypes: readonly string[], instant: string): number[] {
  const starts = startsByLot(world);
  const warm: number[] = [];
  for (const lot of world.shelter.lots.values()) {
    const { of } = lot;
    if (of.is !== 'kit' || !kitTypes.includes(of.kitType)) continue;
    const kit = world.shelter.formulary?.kits.find((one) => one.id === of.kitType);
    if (kit === undefined) continue;
    const batches = lot.outOfCold
      .map(({ at, count }) => ({ at, left: count, ago_s: secondsUntil(at, instant) }))
      .filter(({ ago_s }) => ago_s >= 0 && ago_s < sameShift_s)
      .filter(({ ago_s }) => kit.warmLimitMinutes === null || ago_s <= kit.warmLimitMinutes * 60)
      .sort((a, b) => b.ago_s - a.ago_s);
    for (const start of starts.get(lot.id) ?? []) {
      const used = batches.find((batch) => batch.left > 0 && batch.at <= start);
      if (used !== undefined) used.left -= 1;
    }
    for (const { left, ago_s } of batches) {
      for (let i = 0; i < left; i += 1) warm.push(kit.warmMinutes * 60 - ago_s);
    }
  }
  return warm.sort((a, b) => a - b);
}

function startsByLot(world: World): Map<string, string[]> {
  const starts = new Map<string, string[]>();
  for (const animal of world.animals.values()) {
    for (const { lot, startedAt } of animal.runs) {
      if (lot !== null && startedAt !== null) starts.set(lot, [...(starts.get(lot) ?? []), startedAt].sort());
    }
  }
  return starts;
}

/** Minutes of warming that the slowest of these kits asks for, and the shortest time out of the cold; null: no limit. */
export function warmingOf(
  world: World,
  kitTypes: readonly string[],
): { readonly warm_s: number; readonly limit_s: number | null } {
  const kits = (world.shelter.formulary?.kits ?? []).filter((kit) => kitTypes.includes(kit.id));
  const limits = kits.flatMap((kit) => (kit.warmLimitMinutes === null ? [] : [kit.warmLimitMinutes * 60]));
  return {
    warm_s: Math.max(0, ...kits.map((kit) => kit.warmMinutes * 60)),
    limit_s: limits.length === 0 ? null : Math.min(...limits),
  };
}
