import { amountInWords, amountOrdered } from '../../animal/order-amount.js';
import { isOrdered, type OrderTerms, orderOn, orderSchedule, type PlacedOrder } from '../../animal/vet-order.js';
import { type CalendarDate, type DayNumber, dayFromNumber, dayNumber } from '../../calendar.js';
import { orderedSaid } from '../../dosing/ordered.js';
import { type Said, type SayValue, said } from '../../said.js';
import type { ProtocolDocument, Schedule } from '../document/document.js';
import type { DueItem, DueTime } from '../due.js';
import type { Evaluated } from '../evaluated.js';
import type { ProtocolInput } from '../input.js';
import { lapsesAt } from './lapse.js';
import { limitsSaid, timingSaid } from './order-said.js';
import { endOf, type Kept, keep, minutesInDay, recordedFor, type Slot, slotsFor, spacing } from './order-slots.js';
import { holdOn, stoppedBy } from './order-standstill.js';

/**
 * What is due by the veterinarian's orders for one animal: one item for each. Start day inclusive, nothing before it;
 * times that have passed are closed as missed and never pile up. Total, as the forecast of the protocol is.
 */
export function forecastOrders(
  input: ProtocolInput,
  protocol: ProtocolDocument | null,
  today: CalendarDate,
): DueItem[] {
  return (input.animal.orders ?? []).map((order) => forecastOrder(input, protocol, order, today));
}

interface Next {
  readonly status: DueItem['status'];
  readonly because: Said;
  /** Also the last day on which it is in time. */
  readonly due: DayNumber | null;
}

function forecastOrder(
  input: ProtocolInput,
  protocol: ProtocolDocument | null,
  order: PlacedOrder,
  today: CalendarDate,
): DueItem {
  const { terms } = order;
  const day = dayNumber(today);
  const schedule = scheduleTreated(order, protocol);
  const recorded = recordedFor(input, order);
  const slots = slotsFor(terms, recorded, day);
  const kept = closePassed(slots, keep(slots, recorded, today), day);
  const next = nextOf(input, order, schedule, { slots, kept, day, protocol });
  const isWhenNeeded = next.status === 'when-needed';
  const waits = isWhenNeeded || (next.due !== null && next.status !== 'ended-missed');
  const hold = waits ? holdOn(input, order, protocol, Math.max(day, next.due ?? day), day) : null;
  const times = timesAround(slots, kept, day);
  const on = (number: DayNumber | null): CalendarDate | null => (number === null ? null : dayFromNumber(number));
  const inWords = amountInWords(terms);
  return {
    animal: input.animal.id,
    schedule: orderSchedule(order.record),
    scheduleName: terms.name,
    action: terms.treat.is === 'words' ? 'look' : (schedule?.action ?? 'give'),
    dose: kept.states.filter((state) => state === 'done').length + 1,
    status: hold === null ? next.status : 'on-hold',
    earliest: isWhenNeeded ? terms.starts : on(next.due),
    due: on(next.due),
    overdueAfter: on(next.due),
    latest: terms.ends.is === 'after-days' ? dayFromNumber(Math.floor((endOf(terms) - 1) / minutesInDay)) : null,
    hold,
    asks: asksOf(terms, next.due === null ? today : dayFromNumber(Math.max(day, next.due))),
    ...(inWords === null ? {} : { inWords }),
    ...(times.length === 0 || (next.due === null && !isWhenNeeded) ? {} : { times }),
    order: order.record,
    ...(terms.route === null ? {} : { route: terms.route }),
    products: productsFor(order, schedule, input),
    kitTypes: [],
    because: next.because,
    sources: [],
    protocol: { id: protocol?.id ?? '', version: protocol?.version ?? '' },
    trace: [],
  };
}

/** What the order says of the dose and its manner on a day. */
function asksOf(terms: OrderTerms, on: CalendarDate): Said[] {
  const figure = amountOrdered(terms, on);
  return [
    ...(figure.is === 'figure' ? [said('due.order.amount', { amount: orderedSaid(figure) })] : []),
    ...(terms.amount === '' ? [] : [said('due.order.amount', { amount: terms.amount })]),
    ...(terms.route === null ? [] : [said('due.order.route', { route: terms.route })]),
    ...(terms.chosenBy === null ? [] : [said(`due.order.chosen-by.${terms.chosenBy}`)]),
    ...(terms.food === null ? [] : [said(`due.order.${terms.food}`)]),
  ];
}

const scheduleTreated = ({ terms }: PlacedOrder, protocol: ProtocolDocument | null): Schedule | null => {
  const { treat } = terms;
  return treat.is === 'schedule' ? (protocol?.schedules.find((one) => one.id === treat.schedule) ?? null) : null;
};

function productsFor({ terms }: PlacedOrder, schedule: Schedule | null, { formulary }: ProtocolInput) {
  if (terms.treat.is === 'product') return [terms.treat.product];
  const products = formulary?.products ?? [];
  const wanted = schedule?.satisfiedBy ?? [];
  const ids = wanted.flatMap((name) => products.filter((one) => one.classes.includes(name)).map((one) => one.id));
  return [...new Set(ids)];
}

/** Slots that were over before the day began are missed, with the reason. */
function closePassed(slots: readonly Slot[], kept: Kept, day: DayNumber): Kept {
  const states = kept.states.map((state, at) => {
    const slot = slots[at];
    return state === 'open' && slot !== undefined && slot.closes <= day * 1440 ? 'missed' : state;
  });
  return { ...kept, states };
}

interface Standing {
  readonly slots: readonly Slot[];
  readonly kept: Kept;
  readonly day: DayNumber;
  readonly protocol: ProtocolDocument | null;
}

function nextOf(input: ProtocolInput, order: PlacedOrder, schedule: Schedule | null, standing: Standing): Next {
  const { terms, ended } = order;
  const { slots, kept, day, protocol } = standing;
  const count = kept.states.filter((state) => state === 'done').length;
  const missed = kept.states.filter((state) => state === 'missed').length;
  const none = { due: null, status: 'complete' } as const;
  const name = terms.name;
  if (ended !== null && dayNumber(ended.on) <= day) {
    return { ...none, because: said('due.order.ended', { name, on: { date: ended.on }, why: ended.why }) };
  }
  const stopped = stoppedBy(input, order, day);
  if (stopped !== null) return { ...none, because: said('due.order.stopped', { name, ...stopped }) };
  if (terms.ends.is === 'after-doses' && count >= terms.ends.doses) {
    return { ...none, because: said('due.order.complete', { name, count, missed }) };
  }
  if (terms.timing.is === 'as-needed') return whenNeeded(order, protocol, day, count);
  const slot = slots[kept.states.indexOf('open')];
  if (slot === undefined) {
    const last = slots.at(-1);
    if (missed === 0 || last === undefined || isRenewed(input, order)) {
      return { ...none, because: said('due.order.complete', { name, count, missed }) };
    }
    return {
      status: 'ended-missed',
      due: dayNumber(last.on),
      because: said('due.order.ended-missed', { name, count, missed }),
    };
  }
  const due = Math.max(dayNumber(slot.on), freeFrom(input, order, schedule, day));
  // What is late is given as the order has it today.
  const on = dayFromNumber(Math.max(due, day));
  const status = day < due ? 'not-yet' : day > due ? 'overdue' : 'due';
  const because = said('due.order', {
    ...whatOf(terms, on),
    date: { date: dayFromNumber(due) },
    timing: timingSaid(orderOn(terms, on).timing),
  });
  return { status, because: countersigned(order, protocol, because), due };
}

/** What every sentence of an order says: whose it is, from when, and how much on a day. */
function whatOf(terms: OrderTerms, on: CalendarDate) {
  const ordered = amountOrdered(terms, on);
  const figure: SayValue = ordered.is === 'figure' ? orderedSaid(ordered) : 'none';
  return {
    name: terms.name,
    by: { person: terms.vet },
    start: { date: terms.starts },
    figure,
    amount: amountInWords(terms) ?? 'none',
  };
}

function countersigned(order: PlacedOrder, protocol: ProtocolDocument | null, because: Said): Said {
  const at = lapsesAt(order, protocol);
  if (at !== null) return said('due.order.lapses', { order: because, at: { instant: at } });
  const { written } = order;
  return written !== undefined && written.answered === null
    ? said('due.order.not-countersigned', { order: because })
    : because;
}

/** An order as needed is never due and never late: from its first day to its end it may be given when its reason is so. */
function whenNeeded(order: PlacedOrder, protocol: ProtocolDocument | null, day: DayNumber, count: number): Next {
  const { terms } = order;
  if (day * minutesInDay >= endOf(terms)) {
    const because = said('due.order.complete', { name: terms.name, count, missed: 0 });
    return { status: 'complete', due: null, because };
  }
  const first = dayNumber(terms.starts);
  const because = said('due.order.when-needed', {
    ...whatOf(terms, dayFromNumber(Math.max(first, day))),
    timing: timingSaid(terms.timing),
    limits: { list: limitsSaid(terms) },
  });
  const due = day < first ? first : null;
  return { status: due === null ? 'when-needed' : 'not-yet', due, because: countersigned(order, protocol, because) };
}

/** Whether a veterinarian has written a later order for the same: that is the answer to what was missed of this one. */
const isRenewed = ({ animal }: ProtocolInput, { record, terms }: PlacedOrder): boolean =>
  (animal.orders ?? []).some(
    (other) =>
      other.record !== record &&
      isOrdered(other) &&
      other.terms.starts > terms.starts &&
      JSON.stringify(other.terms.treat) === JSON.stringify(terms.treat),
  );

/** An order by days keeps its days from the one really given; hours are looked at when the time comes. */
function freeFrom(input: ProtocolInput, order: PlacedOrder, schedule: Schedule | null, day: DayNumber): DayNumber {
  const { timing } = orderOn(order.terms, dayFromNumber(day));
  if (timing.is !== 'days') return Number.NEGATIVE_INFINITY;
  const days = spacing(input, order, schedule?.satisfiedBy ?? []).map((event) => dayNumber(event.on));
  const past = days.filter((one) => one <= day);
  return past.length === 0 ? Number.NEGATIVE_INFINITY : Math.max(...past) + timing.every;
}

/** Today's times, what is still open from before, and what was missed since yesterday. */
function timesAround(slots: readonly Slot[], kept: Kept, day: DayNumber): DueTime[] {
  const times: DueTime[] = [];
  for (const [index, slot] of slots.entries()) {
    const state = kept.states[index] ?? 'open';
    const on = dayNumber(slot.on);
    if (on > day || (on < day && state !== 'open' && !(state === 'missed' && on === day - 1))) continue;
    times.push({ on: slot.on, at: slot.at, state, why: missedSaid(slots, kept, index, state) });
  }
  return times;
}

/** Why a time is closed; null for one that is not. */
export function missedSaid(slots: readonly Slot[], kept: Kept, at: number, state: DueTime['state']): Said | null {
  if (state !== 'missed') return null;
  const reason = kept.reasons[at] ?? null;
  if (reason !== null) return said('due.order.not-done', { reason: said(`not-given.${reason}`) });
  return timePassedSaid(slots[at]);
}

const timePassedSaid = (slot: Slot | undefined): Said =>
  slot === undefined || slot.at === ''
    ? said('due.order.day-passed')
    : said('due.order.time-passed', { at: slot.at, date: { date: slot.on } });

/** What each record for an order was worth to it. */
export function evaluateOrders(input: ProtocolInput, today: CalendarDate): Evaluated[] {
  return (input.animal.orders ?? []).flatMap((order) => {
    const recorded = recordedFor(input, order);
    const { worth } = keep(slotsFor(order.terms, recorded, dayNumber(today)), recorded, today);
    let dose = 0;
    return worth.flatMap(({ of, slot, counts }): Evaluated[] => {
      if (of.what === 'not-done') return [];
      if (counts) dose += 1;
      const status = counts ? 'valid' : of.fault !== null ? 'substandard' : 'extra';
      const reason = counts ? 'in-time' : (of.fault ?? (slot === null ? 'not-ordered' : 'same-time'));
      const values = { schedule: order.terms.name, on: { date: of.on }, reason: said(`due.reason.${reason}`), dose };
      return [
        {
          record: of.record,
          on: of.on,
          schedule: orderSchedule(order.record),
          status,
          reason,
          dose: counts ? dose : null,
          validFrom: null,
          protectsFrom: null,
          result: null,
          why: said(counts ? 'due.judged.valid-dose' : `due.judged.${status}`, values),
        },
      ];
    });
  });
}
