import { z } from 'zod';
import { CalendarDate, InstantText } from '../../core/calendar.js';
import { Exact } from '../../core/dosing/formulary.js';
import { LotId, PersonId, ProductId, RecordId, RoundId, ScheduleId, SyringeId } from '../../core/ids.js';
import { WallTime } from '../../core/wall-time.js';
import { SaidInRecord } from './said.js';
import { Told } from './told.js';

/** Why something due was not done. An omission has a code, a time and a person. */
export const NotGivenReason = z.enum([
  'animal-not-found',
  'animal-ill',
  'animal-too-stressed',
  'refused-or-escaped',
  'weight-missing',
  'product-missing',
  'kit-missing',
  'draw-failed',
  'already-done',
  'veterinarian-said-no',
  /** The protocol held it on the day; the note says why. */
  'must-wait',
  /** Said so by the person who had it in hand; `because` says what the protocol said stood in the way. */
  'left-for-today',
  /** A chip was read in the animal that is not on its record: none was implanted, and the desk is told. */
  'chip-read',
  'ran-out-of-time',
  'other',
]);
export type NotGivenReason = z.infer<typeof NotGivenReason>;

/**
 * A gate that was passed, by whom and how: on a veterinarian's word, on a word that is on record (`word`), by a second
 * person who came to the same alone (`agreed`), or on nobody's word, given all the same, as a device or a sheet tells it.
 */
export const GatePassed = z.object({
  gate: z.string().min(1).max(60),
  how: z.enum(['by-telephone', 'in-person', 'in-writing', 'on-record', 'second-person', 'no-word', 'no-word-on-paper']),
  /** In the words of whoever opened it. */
  reason: z.string().max(300).default(''),
  word: RecordId.optional(),
  agreed: z.object({ grams: z.number().int().min(1), volume_ul: z.number().int().min(0).nullable() }).optional(),
  by: PersonId,
});
/** As it is written down, before its defaults. */
export type GatePassed = z.input<typeof GatePassed>;

/** The item of a veterinarian's order that a person confirmed: its day, and its time or nothing for the whole day. */
export const DueAt = z.object({ on: CalendarDate, at: z.union([WallTime, z.literal('')]) });

export const TreatmentGiven = z.object({
  /** The schedule of the protocol that it was meant for; null for something given outside the protocol. */
  schedule: ScheduleId.nullable(),
  product: ProductId,
  lot: LotId.nullable(),
  /** Lot as read from the vial when it is not in the shelter's list. */
  lotText: z.string().max(60).default(''),
  /** Volume really given, whole microlitres; null when the product is not measured by volume. */
  volume_ul: z.number().int().min(0).max(100_000).nullable(),
  /** Amount of the product given as pieces (tablets, tubes), text so that 1/2 stays 1/2; empty otherwise. */
  pieces: z.string().max(20).default(''),
  syringe: SyringeId.nullable().default(null),
  /** The box of the shelf that the syringe came out of; null when nobody said, and then no box has lost one. */
  syringeLot: LotId.nullable().default(null),
  /** Strength of what was drawn when it is not the product's own: another vial, made up on the day, diluted. */
  strength_mg_per_ml: Exact.nullable().default(null),
  /** The vial was made up on the day: to which strength, and when. */
  madeUp: z.object({ mg_per_ml: Exact, at: InstantText }).nullable().default(null),
  /** Recipe of the signed document by which it was diluted. */
  dilution: z.string().max(60).nullable().default(null),
  /** In how many places it went in. */
  places: z.number().int().min(1).max(20).default(1),
  /** What the tool had worked out, for comparison with what was given. */
  planned_ul: z.number().int().min(0).max(100_000).nullable().default(null),
  weight: RecordId.nullable().default(null),
  grams: z.number().int().min(1).max(20_000).nullable().default(null),
  route: z.string().max(40),
  site: z.string().max(80).default(''),
  outcome: z.enum(['taken', 'partly-taken', 'not-taken']).default('taken'),
  /** False when it is reported from elsewhere: a foster home, another clinic, papers. */
  here: z.boolean().default(true),
  /** Told by telephone by whoever gave it. */
  told: Told.nullable().default(null),
  passed: z.array(GatePassed).default([]),
  protocol: z.object({ id: z.string(), version: z.string(), variant: z.string().optional() }).nullable().default(null),
  dueAt: DueAt.nullable().default(null),
  round: RoundId.nullable().default(null),
  note: z.string().max(500).default(''),
});

export const TreatmentNotGiven = z.object({
  schedule: ScheduleId,
  reason: NotGivenReason,
  dueAt: DueAt.nullable().default(null),
  /** What the program said stood in the way; null where nothing did. */
  because: SaidInRecord.nullable().default(null),
  note: z.string().max(500).default(''),
  round: RoundId.nullable().default(null),
});
