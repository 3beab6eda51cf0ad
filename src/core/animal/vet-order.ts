import { z } from 'zod';
import { CalendarDate } from '../calendar.js';
import { PersonId, ProductId, type RecordId, ScheduleId } from '../ids.js';
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
]);
export type OrderTiming = z.infer<typeof OrderTiming>;

export const OrderEnd = z.discriminatedUnion('is', [
  /** Calendar days, the first day counts. */
  z.object({ is: z.literal('after-days'), days: z.number().int().min(1).max(730) }),
  /** When so many have been done: a missed one is made up at the end. */
  z.object({ is: z.literal('after-doses'), doses: z.number().int().min(1).max(1000) }),
  /** Goes on until somebody ends it. */
  z.object({ is: z.literal('when-ended') }),
]);

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
    /** Dose and manner in the words of the order; empty when the formulary says it all. */
    amount: z.string().max(300).default(''),
    /** First day, inclusive: nothing before it. */
    starts: CalendarDate,
    /** First time on that day; earlier times of that day are not asked for. */
    startsAt: WallTime.nullable().default(null),
    timing: OrderTiming,
    ends: OrderEnd,
    /** Shortest time between two, in hours really passed; null for the shortest distance of two times of the order. */
    leastHours: z.number().min(0.5).max(720).nullable().default(null),
    /** Codes of observation that end it, seen on its first day or later. */
    stopWhen: z.array(code).default([]),
    /** Codes of observation that hold it while they last. */
    holdWhen: z.array(code).default([]),
    why: z.string().max(500).default(''),
    /** The veterinarian who ordered it. */
    vet: PersonId,
  })
  .superRefine(({ timing, startsAt }, context) => {
    if (timing.is === 'hours' && startsAt === null) {
      context.addIssue({ code: 'custom', path: ['startsAt'], message: 'every so many hours needs a first time' });
    }
    if (timing.is === 'times' && timing.times.some((time, at) => at > 0 && time <= (timing.times[at - 1] ?? ''))) {
      context.addIssue({ code: 'custom', path: ['timing', 'times'], message: 'times must be in order, each once' });
    }
  });
export type OrderTerms = z.infer<typeof OrderTerms>;

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
  /** Told by telephone, and whether it was read back; null when nobody said so: then it is no order until countersigned. */
  readonly told: { readonly readBack: boolean } | null;
  /** When the veterinarian countersigned it, or said that it is not theirs; null for not yet. */
  readonly answered: { readonly at: string; readonly says: 'mine' | 'not-mine' } | null;
}

/**
 * Whether an order counts: written by the veterinarian in whose name it stands, told by telephone, or since countersigned.
 * Any other was written in a veterinarian's name by another hand.
 */
export const isOrdered = ({ written }: Pick<PlacedOrder, 'written'>): boolean =>
  written === undefined || written.told !== null || written.answered?.says === 'mine';

/** Where people write an amount although a field of its own asks for it. */
const besideAmount = ['name', 'why'] as const;
type Amountless = Pick<OrderTerms, 'treat' | 'amount'> & Partial<Pick<OrderTerms, (typeof besideAmount)[number]>>;

const unit =
  'mg|mgs|milligrams?|mcg|ug|\u00b5g|\u03bcg|micrograms?|ml|mls|millilit(?:re|er)s?|cc|iu|i\\.u\\.|u|units?|meq|mmol|' +
  'tablets?|tabs?|pills?|capsules?|caps?|drops?|gtt|pipettes?|tubes?|puffs?|sprays?|sachets?|ampoules?|vials?|syringefuls?';
const amountText = new RegExp(
  // How much: "10 mg/kg", "1/2 tablet". A strength, "10 mg per mL", is not.
  `[\\d\u00bd\u00bc\u00be]\\s*-?(?:${unit})(?![\\p{L}\\d])(?!\\s*(?:/|per)\\s*(?:ml|cc|millilit(?:re|er))(?!\\p{L}))` +
    // In words: "half a tablet", "two drops", "double the dose".
    `|(?<!\\p{L})(?:half|quarter|third|one|two|three|four|five|six|eight|ten)\\s+(?:of\\s+)?(?:an?\\s+|the\\s+)?(?:${unit})(?!\\p{L})` +
    `|(?<!\\p{L})(?:half|double|twice|triple|quarter)\\s+(?:of\\s+)?(?:an?\\s+|the\\s+)?(?:usual\\s+|label\\s+|normal\\s+)?dose(?!\\p{L})`,
  'iu',
);

/** The fields in which an order says how much although its amount is empty; none where the amount says it, or needs none. */
export const amountElsewhere = (terms: Amountless): readonly (typeof besideAmount)[number][] =>
  terms.treat.is === 'words' || terms.amount.trim() !== ''
    ? []
    : besideAmount.filter((field) => amountText.test(terms[field] ?? ''));

/**
 * The amount of an order in its own words, which nobody here has worked out, also where it stands in the name or the reason;
 * null where the order leaves the amount to the formulary, or is no product at all.
 */
export function amountInWords(terms: Amountless): string | null {
  if (terms.treat.is === 'words') return null;
  if (terms.amount.trim() !== '') return terms.amount.trim();
  const elsewhere = amountElsewhere(terms).map((field) => (terms[field] ?? '').trim());
  return elsewhere.length === 0 ? null : elsewhere.join('; ');
}

/** The name under which what is done for an order is recorded, beside the schedules of the protocol. */
export const orderSchedule = (record: RecordId): ScheduleId =>
  ScheduleId.parse(
    `order-${record
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-+|-+$/g, '')}`,
  );

export const isOrderSchedule = (schedule: string): boolean => schedule.startsWith('order-');
