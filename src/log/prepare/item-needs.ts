import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { asksForWeight } from '../../core/dosing/amount.js';
import type { KitType, Product } from '../../core/dosing/formulary.js';
import { byRoute } from '../../core/dosing/ordered.js';
import type { DueItem } from '../../core/protocol/due.js';
import { lotUse } from '../stock/lots.js';
import { weightUsable } from '../views/doses/weight-for-dose.js';
import type { World } from '../views/world.js';

/** The product a due item would be given with: the preferred one of which there is a usable lot, else the preferred. */
export function productFor(world: World, item: DueItem): Product | null {
  const products = item.products.flatMap((id) => {
    const found = world.shelter.formulary?.products.find((one) => one.id === id);
    return found === undefined ? [] : [byRoute(found, item.route ?? null)];
  });
  const use = lotUse(world);
  const stocked = products.find((product) =>
    [...world.shelter.lots.values()].some(
      (lot) =>
        lot.of.is === 'product' &&
        lot.of.product === product.id &&
        lot.withdrawn === null &&
        (use.get(lot.id)?.left ?? lot.pieces) > 0,
    ),
  );
  return stocked ?? products[0] ?? null;
}

export const kitFor = (world: World, item: DueItem): KitType | null =>
  world.shelter.formulary?.kits.find((kit) => kit.id === item.kitTypes[0]) ?? null;

/**
 * Whether an animal is weighed before anything else for these items: one of them goes by weight, or is held because it was
 * too light, and the weight on record may not be used. The one answer for desk, round and command line.
 */
export function weighedFirst(
  world: World,
  animal: Animal,
  items: readonly DueItem[],
  now: string,
  today: CalendarDate,
): boolean {
  if (weightUsable(world.shelter, animal, now, today)) return false;
  return items.some((item) =>
    item.status === 'on-hold'
      ? item.hold?.code === 'under-weight'
      : item.action === 'give' && goesByWeight(world, animal, item),
  );
}

function goesByWeight(world: World, animal: Animal, item: DueItem): boolean {
  const product = productFor(world, item);
  if (product === null) return false;
  return asksForWeight(product) || (product.labelMinWeight !== null && animal.weighings.length === 0);
}
