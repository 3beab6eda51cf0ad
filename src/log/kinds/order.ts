import { z } from 'zod';
import { CalendarDate } from '../../core/calendar.js';
import { RecordId, SectionId } from '../../core/ids.js';
import { OrderTerms } from '../../core/protocol/order.js';

/** A veterinarian orders a treatment for one animal. Subject `animal:ID`. */
export const OrderWritten = z.object({ order: OrderTerms });

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
  by: z.string().min(1).max(120),
  licence: z.string().min(1).max(120),
});
