import { addSpan, type CalendarDate, maximum } from '../calendar.js';
import type { ProtocolDocument } from './document/document.js';
import type { DueItem } from './due.js';

/**
 * The day from which on a treatment has been on hold for longer than the protocol lets it wait without being asked about:
 * the day after that span, counted from its due day or from
 * the day on which the reason came up, whichever is later. Null for one that is not on hold, has no due day, or where the protocol says nothing.
 * Source of the span: the protocol.
 */
export function heldLongFrom(
  { status, due, hold }: Pick<DueItem, 'status' | 'due' | 'hold'>,
  protocol: Pick<ProtocolDocument, 'heldLong'> | null,
): CalendarDate | null {
  const after = protocol?.heldLong?.span;
  if (status !== 'on-hold' || due === null || after === undefined) return null;
  return addSpan(addSpan(maximum(due, hold?.from ?? due), after), { days: 1 });
}

/** Whether it has been on hold for that long on a day. */
export function isHeldLong(
  item: Pick<DueItem, 'status' | 'due' | 'hold'>,
  protocol: Pick<ProtocolDocument, 'heldLong'> | null,
  on: CalendarDate,
): boolean {
  const from = heldLongFrom(item, protocol);
  return from !== null && from <= on;
}
