import type { PlacedOrder } from '../../animal/vet-order.js';
import { type CalendarDate, dayFromNumber, dayNumber, instantAt } from '../../calendar.js';
import { dayAndTimeOf, plusSeconds } from '../../wall-time.js';
import type { ProtocolDocument } from '../document/document.js';
import type { DueTime } from '../due.js';
import type { ProtocolInput } from '../input.js';
import { missedSaid } from './order-forecast.js';
import { keep, leastOf, recordedFor, slotsFor, spacing } from './order-slots.js';
import { holdOn, isOver, stoppedBy } from './order-standstill.js';

/** How an order stands at an instant. */
export interface OrderNow {
  /** The one time that may be done now; at most one, however many were missed. Null when none is open or allowed. */
  readonly mayDo: DueTime | null;
  /** The shortest distance from the last one really given is not over before this instant; null when it is. */
  readonly notBefore: string | null;
  /** Times of the day so far and to come, and what was missed since yesterday. */
  readonly times: readonly DueTime[];
}

const secondsInHour = 3600;

/**
 * What of an order may be done at an instant (UTC text), by the wall clock of the shelter's zone: a time keeps its hour
 * over clock changes. Of times that have come only the last is open; the ones before it are closed as missed.
 */
export function orderNow(
  input: ProtocolInput,
  order: PlacedOrder,
  protocol: ProtocolDocument | null,
  now: string,
  zone: string,
): OrderNow {
  const { day, minute } = dayAndTimeOf(now, zone);
  const today = dayFromNumber(day);
  const recorded = recordedFor(input, order);
  const slots = slotsFor(order.terms, recorded, day);
  const kept = keep(slots, recorded, today);
  const done = kept.states.filter((state) => state === 'done').length;
  const still =
    isOver(order, today, done) || stoppedBy(input, order, day) !== null || holdOn(input, order, day, day) !== null;
  const times: DueTime[] = [];
  let mayDo: DueTime | null = null;
  for (const [at, slot] of slots.entries()) {
    const recordedAs = kept.states[at] ?? 'open';
    const state = recordedAs === 'open' && slot.closes <= minute ? 'missed' : recordedAs;
    const time: DueTime = { on: slot.on, at: slot.at, state, why: missedSaid(slots, kept, at, state) };
    if (state === 'open' && slot.opens <= minute && !still) mayDo = time;
    const on = dayNumber(slot.on);
    if (on === day || (on === day - 1 && state !== 'done')) times.push(time);
  }
  const wait = notBefore(input, order, protocol, now, zone);
  return { mayDo: wait === null ? mayDo : null, notBefore: wait, times };
}

const laterOf = (one: string, other: string): string => (plusSeconds(one, 0) > plusSeconds(other, 0) ? one : other);

function notBefore(
  input: ProtocolInput,
  order: PlacedOrder,
  protocol: ProtocolDocument | null,
  now: string,
  zone: string,
): string | null {
  const { treat } = order.terms;
  const classes =
    treat.is === 'schedule' ? (protocol?.schedules.find((one) => one.id === treat.schedule)?.satisfiedBy ?? []) : [];
  const last = spacing(input, order, classes)
    .map(({ at, on }) => ({ at: plusSeconds(at, 0), on }))
    .filter(({ at }) => at <= now)
    .reduce<{ at: string; on: CalendarDate } | null>(
      (most, one) => (most === null || one.at > most.at ? one : most),
      null,
    );
  if (last === null) return null;
  const least = leastOf(order.terms, dayFromNumber(dayAndTimeOf(now, zone).day));
  const free =
    'days' in least
      ? laterOf(
          instantAt(dayFromNumber(dayNumber(last.on) + least.days), '00:00', zone),
          // A dose in the evening and one after midnight are two of one night: half of the days lie between, in hours; ours.
          plusSeconds(last.at, least.days * 12 * secondsInHour),
        )
      : plusSeconds(last.at, least.hours * secondsInHour);
  return free > now ? free : null;
}
