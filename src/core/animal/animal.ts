import { z } from 'zod';
import { CalendarDate } from '../calendar.js';
import type { Clocked } from '../clocked.js';
import { growing, grown } from '../derived.js';
import type {
  AnimalId,
  LitterId,
  LotId,
  PersonId,
  ProductId,
  RecordId,
  RoundId,
  RunId,
  ScheduleId,
  SectionId,
} from '../ids.js';
import type { After } from '../said.js';
import type { FollowUp } from './follow-up.js';
import type { LampAnswer } from './lamp.js';
import { Photo } from './photo.js';
import type { PlacedOrder } from './vet-order.js';

export const Sex = z.enum(['female', 'male', 'unknown']);
export type Sex = z.infer<typeof Sex>;
export const Neutered = z.enum(['yes', 'no', 'unknown']);
export type Neutered = z.infer<typeof Neutered>;

/**
 * When an animal was born, as an interval of days, both ends included. A known birth date has both ends equal.
 * `earliest` makes it the oldest it may be, `latest` the youngest; every rule says which end it uses.
 */
export const BirthInterval = z.object({
  earliest: CalendarDate,
  latest: CalendarDate,
  basis: z.enum(['known', 'estimated', 'unknown']),
});
export type BirthInterval = z.infer<typeof BirthInterval>;

/** What tells one kitten from its look-alikes when there is no chip yet. */
export const IdentityMarks = z.object({
  collar: z.string().max(60).default(''),
  coat: z.string().max(120).default(''),
  mark: z.string().max(200).default(''),
  photo: Photo.nullable().default(null),
});
export type IdentityMarks = z.infer<typeof IdentityMarks>;

export interface Weighing {
  readonly record: RecordId;
  readonly at: string;
  readonly on: CalendarDate;
  readonly grams: number;
  /** Entered by a person as doubtful, or implausible against the last weight and not yet weighed again. */
  readonly doubtful: boolean;
  /** Only the record doubts it: whoever weighed was not asked to weigh again. */
  readonly unasked?: true;
  /** By the medical team's own hand; or believed after one that was, where no cat of its age weighs so. */
  readonly vouched?: true;
  /** Weighed on another scale than the one before. */
  readonly otherScale?: true;
  /** It agrees with the doubtful one before it, and no cat of that age weighs so, or it is too far from the last weight. */
  readonly beyond?: 'age' | 'jump';
}

/** Everything the protocol engine looks at in the past of one animal, in order of happening. */
export type HistoryEvent =
  | {
      readonly what: 'given';
      readonly record: RecordId;
      readonly at: string;
      readonly on: CalendarDate;
      readonly schedule: ScheduleId | null;
      readonly product: ProductId;
      readonly lot: LotId | null;
      /** The item of an order that a person confirmed with it. */
      readonly dueAt?: DueAt | null;
      /** Wall-clock time, `HH:MM`; only for what was given for an order. */
      readonly wall?: string;
      /** Why the dose does not count although it was given: expired or withdrawn lot, spat out ... or null. */
      readonly substandard: 'expired-lot' | 'withdrawn-lot' | 'not-taken' | null;
    }
  | {
      readonly what: 'tested';
      readonly record: RecordId;
      readonly at: string;
      readonly on: CalendarDate;
      readonly schedule: ScheduleId | null;
      readonly run: RunId;
      readonly result: TestResult;
      /** Why it is not valid; left out for every other result. */
      readonly fault?: TestFault;
    }
  | {
      readonly what: 'chipped';
      readonly record: RecordId;
      readonly at: string;
      readonly on: CalendarDate;
      readonly code: string;
      /** True once a scan of the animal after the implant showed the same code, or it came with this chip. */
      readonly confirmed: boolean;
      /** True for one put in here; left out for one that the animal came with. */
      readonly implanted?: boolean;
    }
  | {
      readonly what: 'weighed';
      readonly record: RecordId;
      readonly at: string;
      readonly on: CalendarDate;
      readonly grams: number;
    }
  | {
      readonly what: 'not-given';
      readonly record: RecordId;
      readonly at: string;
      readonly on: CalendarDate;
      readonly schedule: ScheduleId;
      readonly reason: NotGiven;
      readonly dueAt?: DueAt | null;
      readonly wall?: string;
    };

/** Why something due was not done: one for which there are words. */
export type NotGiven = After<'not-given.'>;

/** A due item named by its day and time; the time is empty for the whole day. */
export interface DueAt {
  readonly on: CalendarDate;
  readonly at: string;
}

/** What a run of a point-of-care test means. "Positive" alone is not a state. */
export type TestResult =
  | 'negative'
  | 'reactive'
  | 'invalid'
  /** Says nothing, repeat; the fault says why. */
  | 'not-valid'
  | 'abandoned'
  | 'running';

/** Why a reading is not valid. */
export type TestFault =
  | 'read-early'
  | 'read-late'
  /** Kit and conjugate of different boxes. */
  | 'lots-differ'
  /** Nobody wrote down when it was started or read. */
  | 'no-times'
  /** Nobody knows with which kit, or that it was started at all. */
  | 'kit-unknown';

/** Something seen on the animal that a rule may ask about. Unknown is not the same as absent. */
export interface Observation {
  readonly record: RecordId;
  readonly code: string;
  readonly state: 'present' | 'absent';
  readonly on: CalendarDate;
  readonly until: CalendarDate | null;
  readonly note: string;
  /** Left out where it is not the medical team's, nor of whoever noted it for them: nobody else ends or shortens it. */
  readonly medical?: true;
  /** What the lamp showed; only for a look with the lamp. */
  readonly answer?: LampAnswer;
  /** Instant of the record, and what of an order it confirms; only for what was done for an order. */
  readonly at?: string;
  readonly wall?: string;
  readonly dueAt?: DueAt | null;
}

/** A hold set by a person. */
export interface PlacedHold {
  readonly record: RecordId;
  readonly schedules: readonly ScheduleId[] | 'all';
  readonly code: string;
  readonly from: CalendarDate;
  readonly until: CalendarDate | null;
  /** Who looks after it; null where nobody is named. */
  readonly owner: PersonId | null;
  /** The day on which it is looked at again; null where none was named. */
  readonly recheckOn: CalendarDate | null;
  readonly note: string;
}

/** One reading of a run as it was made, whichever of them stands. */
export interface RunReading {
  readonly record: RecordId;
  readonly at: string;
  readonly by: PersonId;
  readonly seen: Readonly<Record<string, 'seen' | 'faint' | 'not-seen'>>;
  readonly result: TestResult;
  /** Why it is not valid; left out for every other result. */
  readonly fault?: TestFault;
  /** It does not count, and has a mark that would be reactive on a test that does. */
  readonly mark?: boolean;
  /** A second pair of eyes was asked for and could not look, and nobody else has read it since. */
  readonly unseconded?: true;
}

/** A test in progress or finished, folded from its draw, start and reading. */
export interface TestRun {
  readonly run: RunId;
  readonly schedule: ScheduleId;
  readonly round: RoundId | null;
  readonly kitType: string | null;
  readonly lot: LotId | null;
  readonly kitLot: string | null;
  readonly conjugateLot: string | null;
  readonly drawnAt: string | null;
  readonly volume_ul: number;
  /** Instant of activation; the read window is counted from here. */
  readonly startedAt: string | null;
  /** The same two instants with the clocks they were taken from: what is counted from them goes by these. */
  readonly start: Clocked | null;
  readonly reading: Clocked | null;
  readonly readAt: string | null;
  /** True when nobody wrote down when it was started or read: its window cannot be judged. */
  readonly untimed?: boolean;
  readonly seen: Readonly<Record<string, 'seen' | 'faint' | 'not-seen'>>;
  readonly result: TestResult;
  /** Why it is not valid; left out for every other result. */
  readonly fault?: TestFault;
  readonly readRecord: RecordId | null;
  readonly startRecord: RecordId | null;
  /** All readings of it, in order of happening; what stands above is the most serious of them. */
  readonly readings?: readonly RunReading[];
}

export interface ChipScan {
  readonly record: RecordId;
  readonly at: string;
  readonly on: CalendarDate;
  readonly target: 'animal' | 'pack' | 'known';
  readonly occasion: string;
  readonly code: string | null;
  /** Exactly what the reader sent, or empty. */
  readonly raw: string;
  /** Answered: what was read is not in this animal. */
  readonly ofAnother?: boolean;
  readonly round: RoundId | null;
}

/** One animal as the record shows it now: the fold of all its records. */
export interface Animal {
  readonly id: AnimalId;
  /** The shelter's own number for it, text. */
  readonly label: string;
  readonly name: string;
  readonly litter: { readonly id: LitterId; readonly name: string } | null;
  readonly sex: Sex;
  readonly neutered: Neutered;
  readonly born: BirthInterval;
  readonly arrivedOn: CalendarDate;
  readonly section: SectionId | null;
  readonly kennel: string;
  /** The sign that keeps people away, where it was hung and by whom; null while none hangs. */
  readonly sign: {
    readonly record: RecordId;
    readonly at: string;
    readonly by: PersonId;
    readonly section: SectionId | null;
    readonly kennel: string;
  } | null;
  readonly marks: IdentityMarks;
  readonly notes: string;
  /** `word`: on whose word it left with something open; left out when nobody gave one. */
  readonly left: { readonly on: CalendarDate; readonly how: After<'desk.left.'>; readonly word?: PersonId } | null;
  readonly chip: {
    readonly code: string;
    readonly confirmed: boolean;
    readonly record: RecordId;
    /** Chips that it carried when this one went in; left out where there were none, as there should be. */
    readonly also?: readonly string[];
    /** Another number was read in it last. `word`: somebody who is named said to go on all the same. */
    readonly differs?: { readonly code: string; readonly scan: RecordId; readonly word: boolean };
  } | null;
  readonly scans: readonly ChipScan[];
  readonly weighings: readonly Weighing[];
  readonly history: readonly HistoryEvent[];
  readonly runs: readonly TestRun[];
  /** What became of its reactive tests, in order of happening. */
  readonly followUps: readonly FollowUp[];
  /** In order of the days that they are about; of one day in the order they were told. */
  readonly observations: readonly Observation[];
  readonly holds: readonly PlacedHold[];
  /** What a veterinarian has ordered for it, ended ones too. */
  readonly orders: readonly PlacedOrder[];
}

/** Observations in order of their days: what is told late about an earlier day comes before what was seen since. */
export const byDay = growing<Observation, [], readonly Observation[]>(
  (observations) => (isByDay(observations) ? observations : observations.toSorted(ofEarlierDay)),
  (before, { was, more }, observations) => {
    if (before === was && isByDay(observations)) return observations;
    return grown(before, more, observations.toSorted(ofEarlierDay)) as readonly Observation[];
  },
);

const ofEarlierDay = (a: Observation, b: Observation): number => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0);
const isByDay = (observations: readonly Observation[]): boolean =>
  observations.every((one, index) => index === 0 || ofEarlierDay(observations[index - 1] as Observation, one) <= 0);

/** Every chip that an animal carries by its record; one at most, as it should be. */
export const numbersOn = ({ chip }: Pick<Animal, 'chip'>): readonly string[] =>
  chip === null ? [] : [chip.code, ...(chip.also ?? [])];
