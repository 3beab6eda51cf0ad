import type { PlacedOrder } from '../../animal/vet-order.js';
import { type DayNumber, dayNumber, dayOfInstant } from '../../calendar.js';
import { type Said, said } from '../../said.js';
import { plusSeconds } from '../../wall-time.js';
import type { ProtocolDocument } from '../document/document.js';
import type { Hold } from '../due.js';

type Limits = Pick<ProtocolDocument, 'countersign'> | null;
const secondsInHour = 3600;

/**
 * The instant (UTC text) from which an order told by telephone may not be drawn up any more, because its veterinarian has
 * not countersigned it by then; null for an order of any other kind, one that was answered, and where the protocol sets no
 * time. Source of the hours: the protocol.
 */
export function lapsesAt({ written }: Pick<PlacedOrder, 'written'>, protocol: Limits): string | null {
  const hours = protocol?.countersign?.hours;
  if (hours === undefined || written?.told == null || written.answered !== null) return null;
  return plusSeconds(written.told.at, hours * secondsInHour);
}

export function isLapsed(order: Pick<PlacedOrder, 'written'>, protocol: Limits, now: string): boolean {
  const at = lapsesAt(order, protocol);
  return at !== null && plusSeconds(now, 0) >= at;
}

/** Whether it has lapsed at the beginning of a day: what looks at days only learns of it on the day after. */
export function isLapsedOn(order: Pick<PlacedOrder, 'written'>, protocol: Limits, today: DayNumber): boolean {
  const at = lapsesAt(order, protocol);
  return at !== null && order.written?.told != null && dayNumber(dayOfInstant(at, order.written.told.zone)) < today;
}

export const lapsedSaid = (order: PlacedOrder, protocol: Limits): Said =>
  said('due.hold.order-lapsed', {
    by: { person: order.terms.vet },
    at: { instant: lapsesAt(order, protocol) ?? '' },
  });

/** What holds it from then on, until its veterinarian countersigns. */
export const lapsedHold = (order: PlacedOrder, protocol: Limits): Hold => ({
  code: 'order-lapsed',
  until: null,
  why: lapsedSaid(order, protocol),
});
