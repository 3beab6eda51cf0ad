import { z } from 'zod';
import { OrderTerms } from '../../core/animal/vet-order.js';
import { CalendarDate } from '../../core/calendar.js';
import { PersonId, RecordId, SectionId } from '../../core/ids.js';
import { Told } from './told.js';

/**
 * A veterinarian orders a treatment for one animal. Subject `animal:ID`. `told`: by telephone; then it is by the
 * veterinarian and written down by whoever heard it, and stands open until the veterinarian has countersigned it.
 */
export const OrderWritten = z.object({ order: OrderTerms, told: Told.nullable().default(null) });

/** The veterinarian looks at an order that somebody else wrote down in their name. Subject `animal:ID`. */
export const OrderCountersigned = z
  .object({
    /** The record of the order. */
    order: RecordId,
    says: z.enum(['mine', 'not-mine']),
    note: z.string().max(300).default(''),
  })
  .refine(({ says, note }) => says === 'mine' || note.trim() !== '', 'words are missing');

/** An order comes to its end before its time; nothing of it is due from that day on. */
export const OrderEnded = z.object({
  order: RecordId,
  on: CalendarDate,
  why: z.string().min(1).max(300),
});

/**
 * The veterinarian switches a signed variant of the protocol on, or back to the routine values. Subject `shelter:ID`.
 * What is switched for a section counts before what is switched for the whole shelter.
 */
export const VariantSwitched = z.object({
  /** Id of the variant in the signed protocol; null for the routine values. */
  variant: z.string().min(1).max(60).nullable(),
  /** A section, or null for the whole shelter. */
  section: SectionId.nullable(),
  why: z.string().min(1).max(300),
  /** Who ordered it. */
  vet: PersonId,
});
