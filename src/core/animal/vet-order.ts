import type { Decimal } from 'decimal.js';
import { z } from 'zod';
import { CalendarDate, dayNumber } from '../calendar.js';
import { Exact, Route } from '../dosing/exact-text.js';
import { labelStops } from '../dosing/gate.js';
import { atOneTime, OrderDose, OrderUnit } from '../dosing/ordered.js';
import { PersonId, ProductId, type RecordId, ScheduleId } from '../ids.js';
import { exactly } from '../quantity/exact.js';
import { WallTime } from '../wall-time.js';

const code = z.string().min(1).max(60);

/** When an order's treatment is done: days and wall-clock times of the shelter, whatever the zone of a device. */
export const OrderTiming = z.discriminatedUnion('is', [
  /** Once a day, every so many days; next counts from the day really given. */
  z.object({ is: z.literal('days'), every: z.number().int().min(1).max(365) }),
  /** At these times of every day, in order. */
  z.object({ is: z.literal('times'), times: z.array(WallTime).min(1).max(24) }),
  /** Every so many hours of the wall clock from the first time on. */
  z.object({ is: z.literal('hours'), every: z.number().int().min(1).max(720) }),
  /**
   * Whenever what is named here is so, no sooner than the least distance of the order; never due and never late.
   * Source of the shape: HL7 FHIR R4, Dosage.asNeeded with its reason.
   */
  z.object({
    is: z.literal('as-needed'),
    reason: z.string().trim().min(1).max(120),
    /** Of several orders for one reason the place of this one: 2 is given where the first did not help. */
    turn: z.number().int().min(1).max(9).default(1),
  }),
]);
export type OrderTiming = z.infer<typeof OrderTiming>;

/**
 * How many times a day an order's treatment is given on a day on which it is, exact: 24 over the hours between two. Of one
 * as needed nobody knows: nothing is divided among its times, and `mostTimesOn` says how many there may be.
 */
export function timesADay(timing: OrderTiming): Decimal {
  switch (timing.is) {
    case 'days':
    case 'as-needed':
      return exactly(1);
    case 'times':
      return exactly(timing.times.length);
    case 'hours':
      return exactly(24).div(timing.every);
  }
}

/** The most of an order in any 24 hours: so many times, or so much drug or volume, in the unit of its dose. */
export const OrderMost = z.object({
  amount: Exact.refine((text) => !exactly(text).isZero(), 'a most is more than nothing'),
  unit: z.enum(['times', ...OrderUnit.options]),
});
export type OrderMost = z.infer<typeof OrderMost>;

/** From a day of the order on, another dose, and another rhythm where one is named: a taper has no gap and no overlap. */
export const OrderStep = z.object({
  /** Day of the order on which it begins; the first day of the order is 1. */
  fromDay: z.number().int().min(2).max(730),
  dose: OrderDose,
  /** Null: as before. */
  timing: OrderTiming.nullable().default(null),
});
export type OrderStep = z.infer<typeof OrderStep>;

export const OrderEnd = z.discriminatedUnion('is', [
  /** Calendar days, the first day counts; for an order by hours as many times 24 hours from its first time. */
  z.object({ is: z.literal('after-days'), days: z.number().int().min(1).max(730) }),
  /** When so many have been done: a missed one is made up at the end. */
  z.object({ is: z.literal('after-doses'), doses: z.number().int().min(1).max(1000) }),
  /** Goes on until somebody ends it. */
  z.object({ is: z.literal('when-ended') }),
]);

/** A stop of the label that an order opens, until its last day, included. */
export const OrderOpens = z.object({
  gate: z.enum(labelStops),
  reason: z.string().trim().min(1).max(300),
  until: CalendarDate,
});
export type OrderOpens = z.infer<typeof OrderOpens>;

/** A veterinarian's order for one animal. */
export const OrderTerms = z
  .object({
    /** What people read on lists. */
    name: z.string().min(1).max(80),
    treat: z.discriminatedUnion('is', [
      z.object({ is: z.literal('product'), product: ProductId }),
      /** With what the protocol lists for this schedule. */
      z.object({ is: z.literal('schedule'), schedule: ScheduleId }),
      /** Something that is no product of the formulary: wash the eyes, offer water. */
      z.object({ is: z.literal('words'), words: z.string().min(1).max(500) }),
    ]),
    /** How much, as a figure; null where the formulary says it, or only the words below do. */
    dose: OrderDose.nullable().default(null),
    /** It is outside the limits of the formulary, or more often than that gives it, and the veterinarian says that it is meant so. */
    meant: z.boolean().default(false),
    /** What changes on later days, in order of the days. */
    steps: z.array(OrderStep).max(30).default([]),
    /** With a meal or without one; null where it does not matter or nobody said. */
    food: z.enum(['with-food', 'empty-stomach']).nullable().default(null),
    /**
     * Manner in the words of the order, and the dose where it is no figure; empty when the formulary or the figure says it
     * all. Beside a figure no other amount stands in words.
     */
    amount: z.string().max(300).default(''),
    /** Who chooses where the words leave a range open; null for words without one, and for a figure. */
    chosenBy: z.enum(['who-gives', 'medical']).nullable().default(null),
    /** The way it goes in, where that is not the formulary's own; null for that. */
    route: Route.nullable().default(null),
    /** Stops of the label that the veterinarian opens with this order, for its own lines only. */
    opens: z.array(OrderOpens).max(20).default([]),
    /** First day, inclusive: nothing before it. */
    starts: CalendarDate,
    /** First time on that day; earlier times of that day are not asked for. */
    startsAt: WallTime.nullable().default(null),
    timing: OrderTiming,
    ends: OrderEnd,
    /** Shortest time between two, in hours really passed; null for the shortest distance of two times of the order. */
    leastHours: z.number().min(0.5).max(720).nullable().default(null),
    /** The most in any 24 hours really passed, whoever gave it and for whatever line; null for what its rhythm comes to. */
    mostADay: OrderMost.nullable().default(null),
    /** Codes of observation that end it, seen on its first day or later. */
    stopWhen: z.array(code).default([]),
    /** Codes of observation that hold it while they last. */
    holdWhen: z.array(code).default([]),
    why: z.string().max(500).default(''),
    /** The veterinarian who ordered it. */
    vet: PersonId,
  })
  .superRefine((terms, context) => {
    const { treat, timing, startsAt, dose, steps, ends } = terms;
    const wrong = (path: (string | number)[], message: string): void =>
      context.addIssue({ code: 'custom', path, message });
    for (const [at, one] of [timing, ...steps.map((step) => step.timing ?? timing)].entries()) {
      const path = at === 0 ? ['timing'] : ['steps', at - 1, 'timing'];
      if (one.is === 'hours' && startsAt === null) wrong(['startsAt'], 'every so many hours needs a first time');
      if (one.is === 'times' && one.times.some((time, n) => n > 0 && time <= (one.times[n - 1] ?? ''))) {
        wrong([...path, 'times'], 'times must be in order, each once');
      }
    }
    if (timing.is === 'as-needed' && terms.leastHours === null)
      wrong(['leastHours'], 'as needed says how long lies between two');
    if (steps.some((step) => step.timing !== null && [step.timing.is, timing.is].includes('as-needed')))
      wrong(['steps'], 'what is given as needed has no other rhythm');
    if (mostIsWrong(terms))
      wrong(
        ['mostADay'],
        'the most in a day is counted in another unit than the dose, or is less than one dose or than its times',
      );
    for (const one of [{ dose, timing }, ...steps.map((step) => ({ ...step, timing: step.timing ?? timing }))]) {
      if (one.dose?.per !== 'day') continue;
      const { is } = one.timing;
      const daily = is !== 'as-needed' && !(one.timing.is === 'days' && one.timing.every > 1);
      const times = daily ? timesADay(one.timing) : null;
      if (times === null || !times.isInteger())
        wrong(['dose', 'per'], 'a day is divided among whole times of each day');
    }
    if (treat.is === 'words' && dose !== null) wrong(['dose'], 'only a product has a dose');
    if (treat.is !== 'product' && (terms.route !== null || terms.opens.length > 0))
      wrong(['treat'], 'only a product has a way it goes in and a label');
    if (steps.length > 0 && dose === null) wrong(['dose'], 'a dose that changes has a first one');
    for (const [at, step] of steps.entries()) {
      if (at > 0 && step.fromDay <= (steps[at - 1]?.fromDay ?? 0)) wrong(['steps', at, 'fromDay'], 'days go upwards');
      if (ends.is === 'after-days' && step.fromDay > ends.days) wrong(['steps', at, 'fromDay'], 'after the last day');
    }
  });
export type OrderTerms = z.infer<typeof OrderTerms>;

type Most = Pick<OrderTerms, 'dose' | 'steps' | 'timing' | 'mostADay'>;

/** A most that is counted in another unit than a dose, is less than one dose, or less than the order's own times. */
function mostIsWrong({ dose, steps, timing, mostADay }: Most): boolean {
  if (mostADay === null) return false;
  let now = timing;
  return [{ dose, timing: null }, ...steps].some((step) => {
    now = step.timing ?? now;
    const times = mostTimes(mostADay, { dose: step.dose, timing: now });
    return times === null || times < 1 || timesADay(now).gt(times);
  });
}

/** How often a most lets a dose be given in 24 hours; null where the two are counted in different units. */
function mostTimes({ amount, unit }: OrderMost, { dose, timing }: Pick<OrderTerms, 'dose' | 'timing'>): number | null {
  if (unit === 'times') return exactly(amount).isInteger() ? exactly(amount).toNumber() : null;
  if (dose === null || dose.unit !== unit) return null;
  return exactly(amount)
    .div(atOneTime({ dose, timesADay: timesADay(timing) }))
    .floor()
    .toNumber();
}

/**
 * How often the least distance of an order lets it be given in 24 hours, where that is less often than its most says: then
 * the two contradict each other, and only the veterinarian knows which is meant. Null where they do not.
 */
export function mostNeverReached(terms: OrderTerms): { readonly times: number; readonly most: number } | null {
  const most = mostTimesOn(terms, terms.starts);
  if (most === null || terms.leastHours === null) return null;
  const times = Math.max(1, Math.ceil(24 / terms.leastHours));
  return times < most ? { times, most } : null;
}

/** How often an order may be given in any 24 hours on a day of it; null for one without a most. */
export function mostTimesOn(terms: Most & Pick<OrderTerms, 'starts'>, on: CalendarDate): number | null {
  return terms.mostADay === null ? null : mostTimes(terms.mostADay, orderOn(terms, on));
}

/** An order as the record of an animal shows it. */
export interface PlacedOrder {
  readonly record: RecordId;
  readonly terms: OrderTerms;
  /** From this day on nothing of it is due. */
  readonly ended: { readonly on: CalendarDate; readonly why: string } | null;
  /** Left out where the veterinarian in whose name it stands wrote it down in person. */
  readonly written?: WrittenFor;
}

/** An order that somebody else wrote down in a veterinarian's name. */
export interface WrittenFor {
  /** The veterinarian, and who wrote it down. */
  readonly by: PersonId;
  readonly writer: PersonId;
  /**
   * Told by telephone, when (UTC text, with the zone of whoever heard it), and whether it was read back; null when nobody
   * said so: then it is no order until countersigned.
   */
  readonly told: { readonly readBack: boolean; readonly at: string; readonly zone: string } | null;
  /** When the veterinarian countersigned it, or said that it is not theirs; null for not yet. */
  readonly answered: { readonly at: string; readonly says: 'mine' | 'not-mine' } | null;
}

/**
 * Whether an order counts: written by the veterinarian in whose name it stands, told by telephone and read back, or since
 * countersigned.
 * Any other was written in a veterinarian's name by another hand.
 */
export const isOrdered = ({ written }: Pick<PlacedOrder, 'written'>): boolean =>
  written === undefined || written.told?.readBack === true || written.answered?.says === 'mine';

/** The dose and the rhythm of an order on a day: those of its last step that has begun. */
export function orderOn(
  terms: Pick<OrderTerms, 'starts' | 'dose' | 'steps' | 'timing'>,
  on: CalendarDate,
): Pick<OrderTerms, 'dose' | 'timing'> {
  const day = dayNumber(on) - dayNumber(terms.starts) + 1;
  let { dose, timing } = terms;
  for (const step of terms.steps) {
    if (step.fromDay > day) break;
    dose = step.dose;
    timing = step.timing ?? timing;
  }
  return { dose, timing };
}

/** The name under which what is done for an order is recorded, beside the schedules of the protocol. */
export const orderSchedule = (record: RecordId): ScheduleId =>
  ScheduleId.parse(
    `order-${record
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-+|-+$/g, '')}`,
  );

/** The order of an animal that a line stands for; null for a line of the protocol, or for none. */
export const orderNamed = (
  animal: { readonly orders: readonly PlacedOrder[] },
  schedule: string | null,
): PlacedOrder | null => animal.orders.find((one) => orderSchedule(one.record) === schedule) ?? null;

export const isOrderSchedule = (schedule: string): boolean => schedule.startsWith('order-');
