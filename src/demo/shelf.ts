import type { CalendarDate } from '../core/calendar.js';
import type { KitTypeId, LotId, ProductId, SyringeId } from '../core/ids.js';
import { usableLots } from '../log/prepare/prepare.js';
import { isReadyToDraw } from '../log/stock/ready-syringes.js';
import type { Lot } from '../log/views/shelter.js';
import type { World } from '../log/views/world.js';

/** What is on the cart during one round, first-expiring first; counts down as it is used. */
export interface Shelf {
  readonly product: (id: ProductId) => Lot | null;
  readonly kit: (id: KitTypeId) => Lot | null;
  readonly syringe: (id: SyringeId) => Lot | null;
  /** A syringe made ready for drawing blood. */
  readonly ready: () => Lot | null;
  readonly chip: () => { readonly lot: Lot; readonly code: string } | null;
}

export function shelfFrom(world: World, on: CalendarDate): Shelf {
  const left = new Map<LotId, number>();
  const take = (wanted: (of: Lot['of']) => boolean): Lot | null => {
    const offer = usableLots(world, wanted, on).find(({ lot, left: start }) => (left.get(lot.id) ?? start) > 0);
    if (offer === undefined) return null;
    left.set(offer.lot.id, (left.get(offer.lot.id) ?? offer.left) - 1);
    return offer.lot;
  };
  const usedChips = chipsUsed(world);
  return {
    product: (id) => take((of) => of.is === 'product' && of.product === id),
    kit: (id) => take((of) => of.is === 'kit' && of.kitType === id),
    syringe: (id) => take((of) => of.is === 'syringe' && of.syringe === id),
    ready: () => take(isReadyToDraw),
    chip: () => {
      const lot = take((of) => of.is === 'chips');
      if (lot === null || lot.of.is !== 'chips') return null;
      const code = lot.of.codes.find((one) => !usedChips.has(one));
      if (code === undefined) return null;
      usedChips.add(code);
      return { lot, code };
    },
  };
}

function chipsUsed(world: World): Set<string> {
  const used = new Set<string>();
  for (const animal of world.animals.values()) {
    if (animal.chip !== null) used.add(animal.chip.code);
    for (const scan of animal.scans) if (scan.code !== null) used.add(scan.code);
  }
  return used;
}
