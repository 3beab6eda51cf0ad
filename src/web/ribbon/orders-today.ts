import { z } from 'zod';
import type { CalendarDate } from '../../core/calendar.js';
import type { Orders } from './in-order.js';

const place = 'roundhand.orders-asked-for';
const Kept = z.object({ on: z.string(), orders: z.array(z.tuple([z.string(), z.array(z.string())])).max(200) });

type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** The orders that were asked for on this device today and not laid down yet, by team and section. */
export function ordersAskedFor(on: CalendarDate, shelf: () => Shelf = () => sessionStorage): Orders {
  try {
    const kept = Kept.safeParse(JSON.parse(shelf().getItem(place) ?? 'null'));
    return new Map(kept.success && kept.data.on === on ? kept.data.orders : []);
  } catch {
    // Not readable, or a browser that keeps nothing: there is no order yet.
    return new Map();
  }
}

/** Keep them while pages are left and come back to; without any, nothing is kept. */
export function keepAskedFor(on: CalendarDate, orders: Orders, shelf: () => Shelf = () => sessionStorage): void {
  try {
    if (orders.size === 0) shelf().removeItem(place);
    else shelf().setItem(place, JSON.stringify({ on, orders: [...orders] }));
  } catch {
    // It then lasts as long as the page.
  }
}
