import { z } from 'zod';
import { BirthInterval, IdentityMarks, Neutered, Sex } from '../../core/animal/animal.js';
import { LampAnswer } from '../../core/animal/lamp.js';
import { CalendarDate } from '../../core/calendar.js';
import { LitterId, PersonId, RecordId, RoundId, ScheduleId, SectionId } from '../../core/ids.js';
import { DueAt } from './treatment.js';

const litter = z.object({ id: LitterId, name: z.string().max(80) }).nullable();

export const AnimalTakenIn = z.object({
  /** The shelter's own number, text; zeros in front are kept. */
  label: z.string().max(60),
  name: z.string().max(120),
  litter,
  sex: Sex,
  neutered: Neutered,
  born: BirthInterval,
  arrivedOn: CalendarDate,
  /** Null when the place is unknown or not a ward (a truck, a lobby). */
  section: SectionId.nullable(),
  kennel: z.string().max(40),
  marks: IdentityMarks,
  notes: z.string().max(2000).default(''),
  /** Where it came from when it was brought in from a file: digest of the file, row number, and its key there. */
  origin: z.object({ file: z.string(), row: z.number().int(), key: z.string() }).nullable().default(null),
});

/** Changes to the description; only the named fields change. */
export const AnimalDescribed = z.object({
  label: z.string().max(60).optional(),
  name: z.string().max(120).optional(),
  litter: litter.optional(),
  sex: Sex.optional(),
  neutered: Neutered.optional(),
  born: BirthInterval.optional(),
  arrivedOn: CalendarDate.optional(),
  marks: IdentityMarks.optional(),
  notes: z.string().max(2000).optional(),
});

const place = z.object({ section: SectionId.nullable(), kennel: z.string().max(40) });

export const AnimalMoved = z.object({
  ...place.shape,
  /** From where, as the person knew it, so that a move that crossed another one is seen; null: nobody said. */
  from: place.nullable().default(null),
  why: z.string().max(200).default(''),
});

/** The sign that keeps people away was hung on the kennel, or taken down. Subject `animal:ID`. */
export const SignSet = z.object({ hangs: z.boolean(), ...place.shape });

export const AnimalLeft = z.object({
  how: z.enum(['adopted', 'transferred', 'returned-to-owner', 'died', 'other']),
  on: CalendarDate,
  note: z.string().max(500).default(''),
  /** Whose word it was that it may leave with something open. */
  word: PersonId.nullable().default(null),
});

export const AnimalWeighed = z.object({
  /** Net weight in whole grams. */
  grams: z.number().int().min(1).max(20_000),
  tare_g: z.number().int().min(0).max(5_000).default(0),
  /** What the person typed, with its unit, kept for audit. */
  entered: z.string().max(60),
  /** The person was told that the weight does not fit the last one or the age, and kept it. */
  doubtful: z.boolean().default(false),
  /** Another scale than the weighing before it: two scales that agree prove a weight that one alone does not. */
  otherScale: z.boolean().optional(),
  round: RoundId.nullable().default(null),
});

export const ObservationNoted = z.object({
  /** Code that the protocol's rules may ask about: `pregnant`, `nursing`, `fever`, `ill`, `felv-exposed` ... */
  code: z.string().min(1).max(60),
  state: z.enum(['present', 'absent']),
  on: CalendarDate,
  until: CalendarDate.nullable().default(null),
  note: z.string().max(1000).default(''),
  /** What the ringworm lamp showed; then `present` says only that somebody looked. */
  answer: LampAnswer.nullable().default(null),
  /** For what was done for an order that is no product: which item of it. Its code is the order's name. */
  dueAt: DueAt.nullable().default(null),
  round: RoundId.nullable().default(null),
});

export const HoldPlaced = z.object({
  schedules: z.union([z.literal('all'), z.array(ScheduleId).min(1)]),
  code: z.string().min(1).max(60),
  from: CalendarDate,
  until: CalendarDate.nullable(),
  /** Who looks after it; null where nobody is named, which the desk is told. */
  owner: PersonId.nullable().default(null),
  /** The day on which the owner looks at it again, where it has no end. */
  recheckOn: CalendarDate.nullable().default(null),
  note: z.string().max(500).default(''),
});

export const HoldLifted = z.object({ hold: RecordId, note: z.string().max(500).default('') });
