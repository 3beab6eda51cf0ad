import { z } from 'zod';
import { CalendarDate } from '../../core/calendar.js';
import { PersonId, ProductId, RoundId } from '../../core/ids.js';

/**
 * A veterinarian's word that gates of the dose calculator may be passed for one animal and product, until a day.
 * Subject `animal:ID`. Whoever took the word writes it down; whose word it is stands in the body.
 */
export const GateOpened = z.object({
  product: ProductId,
  gates: z.array(z.string().min(1).max(60)).min(1),
  vet: PersonId,
  how: z.enum(['by-telephone', 'in-person', 'in-writing']),
  reason: z.string().min(1).max(300),
  /** Last day on which it counts, included. */
  until: CalendarDate,
  round: RoundId.nullable().default(null),
});
