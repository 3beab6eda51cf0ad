import type { HistoryEvent, NotGiven } from '../../animal/animal.js';
import { type OrderTerms, type OrderTiming, orderOn, orderSchedule, type PlacedOrder } from '../../animal/vet-order.js';
import { type CalendarDate, type DayNumber, dayFromNumber, dayNumber } from '../../calendar.js';
import type { RecordId } from '../../ids.js';
import { compareTexts } from '../../in-order.js';
import { minutesOf, timeOf } from '../../wall-time.js';
import type { DueTime } from '../due.js';
import { classesOf, type ProtocolInput } from '../input.js';
import type { Reason } from '../progress.js';

/**
 * The times of an order on the wall clock of the shelter, as minutes since day 0 without any zone:
 *
 *   slot 1        slot 2        slot 3
 *   |--- open ----|--- open ----|---
 *
 * Invariants: a slot is open from its own time until the next one's, so that at most one is open at any moment; what
 * is not done by then is missed and stays missed; a dose is worth the slot that was confirmed with it, and only when
 * none was confirmed the one that was open when it was given, never the nearest.
 */
export interface Slot {
  readonly on: CalendarDate;
  /** `HH:MM`, empty for the whole day. */
  readonly at: string;
  readonly opens: number;
  readonly closes: number;
}

export const minutesInDay = 1440;

/** Safety bound: an hourly order of four years. */
const mostSlots = 40_000;

interface Start {
  readonly opens: number;
  readonly timing: OrderTiming;
}

/** When slots begin: a step of the order begins anew on its own day, whatever the rhythm before it had come to. */
function* starts(terms: OrderTerms): Generator<Start> {
  const first = dayNumber(terms.starts);
  const startsAt = terms.startsAt === null ? 0 : minutesOf(terms.startsAt);
  const steps = [{ fromDay: 1, timing: terms.timing }, ...terms.steps];
  let timing = terms.timing;
  for (const [at, step] of steps.entries()) {
    timing = step.timing ?? timing;
    const day = first + step.fromDay - 1;
    const next = steps[at + 1];
    const until = next === undefined ? Number.POSITIVE_INFINITY : (first + next.fromDay - 1) * minutesInDay;
    for (const opens of startsFrom(day, timing, startsAt)) {
      if (opens >= until) break;
      if (timing.is !== 'times' || opens >= first * minutesInDay + startsAt) yield { opens, timing };
    }
  }
}

/** Beginnings of one rhythm from its first day on, without end. */
function* startsFrom(day: DayNumber, timing: OrderTiming, startsAt: number): Generator<number> {
  switch (timing.is) {
    case 'days':
      for (let k = day; ; k += timing.every) yield k * minutesInDay;
    case 'hours':
      for (let at = day * minutesInDay + startsAt; ; at += timing.every * 60) yield at;
    case 'times':
      for (let k = day; ; k += 1) yield* timing.times.map((time) => k * minutesInDay + minutesOf(time));
    case 'as-needed':
      return;
  }
}

/** Slots to the first that opens after a day, and on beyond those that were done ahead of their day. */
export const slotsFor = (terms: OrderTerms, recorded: readonly ForOrder[], day: DayNumber): Slot[] =>
  terms.timing.is === 'as-needed'
    ? slotsDone(terms, recorded)
    : slotsUpTo(terms, Math.max(day, ...recorded.map(({ dueAt }) => (dueAt === null ? day : dayNumber(dueAt.on)))));

/** Of an order as needed no time is open or missed: each one done within its days has a slot of its own minute. */
function slotsDone(terms: OrderTerms, recorded: readonly ForOrder[]): Slot[] {
  const first = dayNumber(terms.starts) * minutesInDay + (terms.startsAt === null ? 0 : minutesOf(terms.startsAt));
  const minutes = recorded
    .filter(({ what, fault, minute }) => what === 'done' && fault === null && minute >= first && minute < endOf(terms))
    .map(({ minute }) => minute);
  return [...new Set(minutes)]
    .sort((a, b) => a - b)
    .map((opens) => ({
      on: dayFromNumber(Math.floor(opens / minutesInDay)),
      at: timeOf(opens % minutesInDay),
      opens,
      closes: opens + 1,
    }));
}

/**
 * Minute since day 0 from which on nothing of an order opens. Days are those of the calendar, the first counts; an order by
 * hours lasts so many times 24 hours from its first time.
 */
export function endOf({ starts, startsAt, timing, ends }: OrderTerms): number {
  if (ends.is !== 'after-days') return Number.POSITIVE_INFINITY;
  const first = timing.is !== 'hours' || startsAt === null ? 0 : minutesOf(startsAt);
  return (dayNumber(starts) + ends.days) * minutesInDay + first;
}

/** Slots from the beginning to the first that opens after a day, within the days of the order. */
function slotsUpTo(terms: OrderTerms, day: DayNumber): Slot[] {
  const slots: Slot[] = [];
  const end = endOf(terms);
  let before: Start | null = null;
  for (const start of starts(terms)) {
    if (before !== null) {
      if (before.opens >= end || slots.length >= mostSlots) break;
      slots.push(slotOf(before, start.opens));
      if (before.opens >= (day + 1) * minutesInDay) break;
    }
    before = start;
  }
  return slots;
}

const slotOf = ({ opens, timing }: Start, closes: number): Slot => ({
  on: dayFromNumber(Math.floor(opens / minutesInDay)),
  at: timing.is === 'days' ? '' : timeOf(opens % minutesInDay),
  opens,
  closes,
});

/** Something recorded for an order. */
export interface ForOrder {
  readonly record: RecordId;
  /** Instant, UTC text; the day alone for what was only seen. */
  readonly at: string;
  readonly on: CalendarDate;
  readonly what: 'done' | 'not-done';
  /** Why it was done and does not count; null when it counts, and when it was not done. */
  readonly fault: Reason | null;
  /** Why it was not done, when somebody said so. */
  readonly omitted: NotGiven | null;
  /** The slot that was confirmed with it. */
  readonly dueAt: { readonly on: CalendarDate; readonly at: string } | null;
  /** Minutes since day 0 on the shelter's clock, as near as the record says. */
  readonly minute: number;
}

const minuteOf = (on: CalendarDate, wall: string | undefined): number =>
  dayNumber(on) * minutesInDay + (wall === undefined ? 0 : minutesOf(wall));

/** Everything that was recorded under an order's own name, in order of happening. */
export function recordedFor({ animal }: ProtocolInput, order: PlacedOrder): ForOrder[] {
  const id = orderSchedule(order.record);
  const found: ForOrder[] = [];
  for (const event of animal.history) {
    if ((event.what !== 'given' && event.what !== 'not-given') || event.schedule !== id) continue;
    const { record, at, on } = event;
    const told =
      event.what === 'given'
        ? ({ what: 'done', fault: event.substandard, omitted: null } as const)
        : ({ what: 'not-done', fault: null, omitted: event.reason } as const);
    found.push({ record, at, on, ...told, dueAt: event.dueAt ?? null, minute: minuteOf(on, event.wall) });
  }
  for (const { record, code, state, on, at, dueAt, wall } of animal.observations) {
    if (code !== id) continue;
    const what = state === 'present' ? 'done' : 'not-done';
    found.push({
      record,
      at: at ?? on,
      on,
      what,
      fault: null,
      omitted: null,
      dueAt: dueAt ?? null,
      minute: minuteOf(on, wall),
    });
  }
  return found.sort((a, b) => compareTexts(a.at, b.at) || compareTexts(a.record, b.record));
}

export interface Worth {
  readonly of: ForOrder;
  /** Place of its slot; null when it has none. */
  readonly slot: number | null;
  /** True when it is the one that its slot is done with. */
  readonly counts: boolean;
}

export interface Kept {
  /** For each slot: how it stands whatever the time is now. */
  readonly states: readonly DueTime['state'][];
  readonly reasons: readonly (NotGiven | null)[];
  readonly worth: readonly Worth[];
}

/** What the records make of the slots. Nothing dated after `today` counts. */
export function keep(slots: readonly Slot[], recorded: readonly ForOrder[], today: CalendarDate): Kept {
  const states: DueTime['state'][] = slots.map(() => 'open');
  const reasons: (NotGiven | null)[] = slots.map(() => null);
  const worth = recorded
    .filter((one) => one.on <= today)
    .map((of): Worth => {
      const slot = slotFor(slots, of);
      if (slot === null || of.fault !== null || of.what === 'not-done') {
        if (slot !== null && of.what === 'not-done' && states[slot] === 'open') {
          states[slot] = 'missed';
          reasons[slot] = of.omitted;
        }
        return { of, slot, counts: false };
      }
      const counts = states[slot] !== 'done';
      states[slot] = 'done';
      return { of, slot, counts };
    });
  return { states, reasons, worth };
}

function slotFor(slots: readonly Slot[], one: ForOrder): number | null {
  const { dueAt, minute } = one;
  const named = slots.findIndex((slot) => slot.on === dueAt?.on && slot.at === dueAt.at);
  if (named >= 0) return named;
  const open = slots.findIndex((slot) => minute >= slot.opens && minute < slot.closes);
  return open < 0 ? null : open;
}

type Given = Extract<HistoryEvent, { what: 'given' }>;

/** What really went into the animal and keeps its distance: for the order, or the same product under another name. */
export function spacing(input: ProtocolInput, order: PlacedOrder, classes: readonly string[]): Given[] {
  const id = orderSchedule(order.record);
  const { treat } = order.terms;
  return input.animal.history.filter((event): event is Given => {
    if (event.what !== 'given' || event.substandard === 'not-taken') return false;
    if (event.schedule === id) return true;
    if (treat.is === 'product') return event.product === treat.product;
    return treat.is === 'schedule' && classes.some((name) => classesOf(input, event.product)?.includes(name));
  });
}

/** Shortest distance of two on a day: in hours really passed, or in days of the calendar for an order by days. */
export function leastOf(terms: OrderTerms, on: CalendarDate): { readonly hours: number } | { readonly days: number } {
  if (terms.leastHours !== null) return { hours: terms.leastHours };
  const { timing } = orderOn(terms, on);
  switch (timing.is) {
    case 'days':
      return { days: timing.every };
    case 'hours':
      return { hours: timing.every };
    case 'as-needed':
      return { hours: 0 };
    case 'times': {
      const minutes = timing.times.map(minutesOf);
      const twoDays = [...minutes, ...minutes.map((at) => at + minutesInDay)];
      const gaps = minutes.map((at) => Math.min(...twoDays.filter((one) => one > at)) - at);
      return { hours: Math.min(...gaps) / 60 };
    }
  }
}
