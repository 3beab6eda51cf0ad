import { z } from 'zod';
import { CalendarDate } from '../calendar.js';
import type { PersonId, RecordId, ScheduleId } from '../ids.js';

/**
 * What the medical team says about a reactive test: the result of another method, or what is to be done on which day.
 * `not-confirmed`: the other method found nothing; what that means is the medical team's to say. `unclear` settles
 * nothing. Source: AAFP 2020, Feline Retrovirus Testing and Management Guidelines (repeat with different methods).
 */
export const FollowUpSays = z.discriminatedUnion('is', [
  z.object({
    is: z.literal('result'),
    method: z.string().min(1).max(200),
    outcome: z.enum(['confirmed', 'not-confirmed', 'unclear']),
    on: CalendarDate,
  }),
  z.object({ is: z.literal('plan'), what: z.string().min(1).max(300), on: CalendarDate }),
]);
export type FollowUpSays = z.infer<typeof FollowUpSays>;

export interface FollowUp {
  readonly record: RecordId;
  readonly at: string;
  readonly schedule: ScheduleId;
  readonly says: FollowUpSays;
  /** Who of the medical team says so. */
  readonly person: PersonId;
  /** Who wrote it down. */
  readonly by: PersonId;
}
