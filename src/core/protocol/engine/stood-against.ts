import type { PlacedOrder } from '../../animal/vet-order.js';
import { type CalendarDate, dayNumber } from '../../calendar.js';
import type { ProductId, ScheduleId } from '../../ids.js';
import { type Said, said } from '../../said.js';
import type { ProtocolDocument, Schedule } from '../document/document.js';
import { type ProtocolInput, worthFor } from '../input.js';
import { isLapsed, lapsedSaid } from '../vet-orders/lapse.js';
import { forecastOrders } from '../vet-orders/order-forecast.js';
import { limitedUntil } from '../vet-orders/order-now.js';
import { limitsSaid } from '../vet-orders/order-said.js';
import { holdOn } from '../vet-orders/order-standstill.js';
import { type HoldKind, type KindOfHold, standstillOn } from './holds.js';
import { subjectOf } from './subject.js';

/** What a dose was given as: under which line, and what it was. */
export interface DoseGiven {
  readonly schedule: ScheduleId | null;
  readonly product: ProductId;
}

/**
 * What held a dose on the day it was given, by the engine of the due list: for the schedule it was written under and for
 * every other one that its product satisfies. `input` is the animal as it was just before.
 */
export function stoodAgainst(
  input: ProtocolInput,
  protocol: ProtocolDocument,
  { schedule: named, product }: DoseGiven,
  today: CalendarDate,
): KindOfHold[] {
  const subject = subjectOf(input, protocol, today);
  const found: KindOfHold[] = [];
  for (const schedule of schedulesOf(input, protocol, { schedule: named, product })) {
    for (const one of standstillOn(subject, schedule, subject.today).all) {
      if (!found.some(({ is, hold }) => is === one.is && hold.code === one.hold.code)) found.push(one);
    }
  }
  return found;
}

/** The schedules that a dose concerns: its own, and those that its product satisfies. */
function schedulesOf(input: Catalogues, protocol: ProtocolDocument, { schedule, product }: DoseGiven): Schedule[] {
  const counts = (one: Schedule): boolean => typeof worthFor(input, one, product) === 'string';
  return protocol.schedules.filter(
    (one) => one.active && one.action === 'give' && (one.id === schedule || counts(one)),
  );
}

type Catalogues = Pick<ProtocolInput, 'formulary' | 'formerFormularies'>;

/**
 * Whether anything but the label could have held a dose, of an animal without a placed hold on which these codes were
 * noted. Cheap and only ever too careful: most doses concern a schedule that nothing could hold, and the animal need not
 * be worked out for them.
 */
export const couldBeHeld = (
  input: Catalogues,
  protocol: ProtocolDocument,
  given: DoseGiven,
  noted: ReadonlySet<string>,
): boolean =>
  schedulesOf(input, protocol, given).some(
    ({ needsFirst, minimumWeight, holds }) =>
      needsFirst.length > 0 ||
      minimumWeight !== null ||
      holds.some(({ when, unknown }) => unknown === 'hold' || when.is === 'result' || noted.has(when.code)),
  );

/**
 * The same for a dose given for a veterinarian's order at an instant; `over` when nothing of it was to be done any more that
 * day, `too-soon` before the least distance or over the most in a day that the order itself names.
 */
export function stoodAgainstOrder(
  input: ProtocolInput,
  protocol: ProtocolDocument | null,
  order: PlacedOrder,
  today: CalendarDate,
  at: string,
): { readonly is: HoldKind | 'over' | 'too-soon'; readonly why: Said } | null {
  const item = forecastOrders(input, protocol, today).find((one) => one.order === order.record);
  if (item?.status === 'complete' || item?.status === 'ended-missed') return { is: 'over', why: item.because };
  const day = dayNumber(today);
  if (isLapsed(order, protocol, at)) return { is: 'placed', why: lapsedSaid(order, protocol) };
  const hold = holdOn(input, order, protocol, day, day);
  if (hold === null) {
    const until = limitedUntil(input, order, protocol, at, today);
    const why = said('due.order.limited', { limits: { list: limitsSaid(order.terms) } });
    return until === null ? null : { is: 'too-soon', why };
  }
  return { is: order.terms.holdWhen.includes(hold.code) ? 'rule' : 'placed', why: hold.why };
}
