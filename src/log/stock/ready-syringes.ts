import type { CalendarDate } from '../../core/calendar.js';
import type { Lot } from '../views/shelter.js';
import type { World } from '../views/world.js';
import { lotUse } from './lots.js';

/** Whether a lot is syringes made ready with anticoagulant: only supervisor or medical team prepare them. */
export const isReadyToDraw = (of: Lot['of']): boolean => of.is === 'supply' && of.readyToDraw === true;

/** How many ready-prepared syringes are left; null while none was ever counted here, so that nobody is left out by ignorance. */
export function readySyringesLeft(world: World, today: CalendarDate): number | null {
  const lots = [...world.shelter.lots.values()].filter((lot) => isReadyToDraw(lot.of));
  if (lots.length === 0) return null;
  const use = lotUse(world);
  return lots
    .filter((lot) => lot.withdrawn === null && (lot.expires === null || lot.expires >= today))
    .reduce((sum, lot) => sum + Math.max(0, use.get(lot.id)?.left ?? lot.pieces), 0);
}
