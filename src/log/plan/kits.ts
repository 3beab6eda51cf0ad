import { batchesOut } from '../stock/kits-out.js';
import type { World } from '../views/world.js';

/** Kits that are out of the cold and not used up: when each is warm, in seconds from an instant (below 0 already warm). */
export function warmFrom(world: World, kitTypes: readonly string[], instant: string): number[] {
  const starts = startsByLot(world);
  const warm: number[] = [];
  for (const lot of world.shelter.lots.values()) {
    const { of } = lot;
    if (of.is !== 'kit' || !kitTypes.includes(of.kitType)) continue;
    const kit = world.shelter.formulary?.kits.find((one) => one.id === of.kitType);
    if (kit === undefined) continue;
    for (const { left, ago_s } of batchesOut(lot, starts.get(lot.id) ?? [], instant)) {
      if (ago_s < 0 || (kit.warmLimitMinutes !== null && ago_s > kit.warmLimitMinutes * 60)) continue;
      for (let i = 0; i < left; i += 1) warm.push(kit.warmMinutes * 60 - ago_s);
    }
  }
  return warm.sort((a, b) => a - b);
}

function startsByLot(world: World): Map<string, string[]> {
  const starts = new Map<string, string[]>();
  for (const animal of world.animals.values()) {
    for (const { lot, startedAt } of animal.runs) {
      if (lot !== null && startedAt !== null) starts.set(lot, [...(starts.get(lot) ?? []), startedAt]);
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
