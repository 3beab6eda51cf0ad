import { mostTimesOn, type OrderTerms, type PlacedOrder } from '../../animal/vet-order.js';
import { type CalendarDate, dayFromNumber, dayNumber, instantAt } from '../../calendar.js';
import { compareTexts } from '../../in-order.js';
import { dayAndTimeOf, minutesOf, plusSeconds } from '../../wall-time.js';
import type { ProtocolDocument } from '../document/document.js';
import type { DueTime } from '../due.js';
import type { ProtocolInput } from '../input.js';
import { isLapsed } from './lapse.js';
import { missedSaid } from './order-forecast.js';
import { endOf, keep, leastOf, minutesInDay, recordedFor, slotsFor, spacing } from './order-slots.js';
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
    isLapsed(order, protocol, now) ||
    isOver(order, today, done) ||
    stoppedBy(input, order, day) !== null ||
    holdOn(input, order, protocol, day, day) !== null;
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
  if (order.terms.timing.is === 'as-needed' && !still && isWithin(order.terms, minute)) {
    mayDo = { on: today, at: '', state: 'open', why: null };
  }
  const wait = notBefore(input, order, protocol, now, zone);
  return { mayDo: wait === null ? mayDo : null, notBefore: wait, times };
}

const laterOf = (one: string, other: string): string => (plusSeconds(one, 0) > plusSeconds(other, 0) ? one : other);

/** Whether a minute since day 0 lies between the first time of an order and its end. */
function isWithin(terms: OrderTerms, minute: number): boolean {
  const first = dayNumber(terms.starts) * minutesInDay + (terms.startsAt === null ? 0 : minutesOf(terms.startsAt));
  return minute >= first && minute < endOf(terms);
}

/** What keeps its distance from another, in order of the time by which it was given, up to an instant. */
function givenBy(input: ProtocolInput, order: PlacedOrder, protocol: ProtocolDocument | null, now: string) {
  const { treat } = order.terms;
  const classes =
    treat.is === 'schedule' ? (protocol?.schedules.find((one) => one.id === treat.schedule)?.satisfiedBy ?? []) : [];
  const done =
    treat.is === 'words'
      ? recordedFor(input, order).filter(({ what, at }) => what === 'done' && at.includes('T'))
      : spacing(input, order, classes);
  return done
    .map(({ at, on }) => ({ at: plusSeconds(at, 0), on }))
    .filter(({ at }) => at <= now)
    .sort((one, other) => compareTexts(one.at, other.at));
}

/**
 * The instant before which the limits that an order itself names (its least distance, its most in any 24 hours) let nothing
 * of it be given; null when they do, or there are none. `on`: the day whose dose the most is counted in.
 */
export function limitedUntil(
  input: ProtocolInput,
  order: PlacedOrder,
  protocol: ProtocolDocument | null,
  now: string,
  on: CalendarDate,
): string | null {
  const { leastHours } = order.terms;
  const most = mostTimesOn(order.terms, on);
  if (leastHours === null && most === null) return null;
  const given = givenBy(input, order, protocol, now);
  const last = given.at(-1);
  if (last === undefined) return null;
  const oldest = most === null ? undefined : given[given.length - most];
  const free = laterOf(
    plusSeconds(last.at, (leastHours ?? 0) * secondsInHour),
    oldest === undefined ? last.at : plusSeconds(oldest.at, 24 * secondsInHour),
  );
  return free > now ? free : null;
}

function notBefore(
  input: ProtocolInput,
  order: PlacedOrder,
  protocol: ProtocolDocument | null,
  now: string,
  zone: string,
): string | null {
  const today = dayFromNumber(dayAndTimeOf(now, zone).day);
  const limited = limitedUntil(input, order, protocol, now, today);
  const last = givenBy(input, order, protocol, now).at(-1);
  if (last === undefined) return null;
  const least = leastOf(order.terms, today);
  const free =
    'days' in least
      ? laterOf(
          instantAt(dayFromNumber(dayNumber(last.on) + least.days), '00:00', zone),
          // A dose in the evening and one after midnight are two of one night: half of the days lie between, in hours; ours.
          plusSeconds(last.at, least.days * 12 * secondsInHour),
        )
      : plusSeconds(last.at, least.hours * secondsInHour);
  const until = limited === null ? free : laterOf(free, limited);
  return until > now ? until : null;
}
