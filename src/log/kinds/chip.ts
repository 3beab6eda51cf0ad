import { z } from 'zod';
import { LotId, PersonId, RecordId, RoundId } from '../../core/ids.js';

const found = z
  .object({
    /** Exactly what the reader sent. */
    raw: z.string().max(200),
    /** Normalised number, text. */
    code: z.string().min(1).max(40),
    class: z.string().max(40),
  })
  .nullable();

export const ChipScanned = z.object({
  /** `known`: not this animal's chip but one at hand, to see whether the reader reads. */
  target: z.enum(['animal', 'pack', 'known']),
  occasion: z.enum(['intake', 'identify', 'before', 'pack', 'after', 'recheck', 'exit', 'reader']),
  /** Null: nothing found, which is a result. */
  found,
  passes: z.number().int().min(1).max(20).default(1),
  scanner: z.string().max(60).default(''),
  typed: z.boolean().default(false),
  /** The team saw that another number or none came, looked again, and leaves it so: the desk decides. */
  leftToDesk: z.boolean().default(false),
  /** Two numbers stand, and somebody of the desk or the medical team said to go on with the animal: who, how and why. */
  word: z
    .object({
      by: PersonId,
      how: z.enum(['by-telephone', 'in-person', 'in-writing']),
      reason: z.string().min(1).max(300),
    })
    .optional(),
  /** The team says that what was read is not in this animal: it is another cat's, or was misread. */
  ofAnother: z.boolean().default(false),
  /**
   * What the person was told by it: this animal's chip, another animal's, that of one that left, none of this animal's though it has one, or
   * on nobody's record. Null where nothing was compared.
   */
  told: z.enum(['match', 'other', 'elsewhere', 'not-this', 'unknown']).nullable().default(null),
  round: RoundId.nullable().default(null),
});

export const ChipImplanted = z.object({
  code: z.string().min(1).max(40),
  /** The one place that the courses here implant at; `not-written`: the sheet does not say. */
  site: z.enum(['between-shoulder-blades', 'not-written']),
  packScan: RecordId.nullable(),
  lot: LotId.nullable().default(null),
  round: RoundId.nullable().default(null),
});

/** A chip that is not in an animal and will not be used: it leaves the count of its box. Subject `animal:ID`. */
export const ChipDiscarded = z.object({
  code: z.string().min(1).max(40),
  /** The implant that did not hold; null for one that fell before it was in. */
  implant: RecordId.nullable(),
  why: z.enum(['dropped', 'seen-outside', 'not-found']),
  lot: LotId.nullable().default(null),
  round: RoundId.nullable().default(null),
});
