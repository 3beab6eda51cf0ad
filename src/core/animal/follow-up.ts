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
  /** Why it settles nothing; left out for one in order. */
  readonly doubt?: FollowUpDoubt;
}

export type FollowUpDoubt =
  /** Who says so was not of the medical team when it was written down. */
  | 'person'
  /** A result of a day before the reading that it is about. */
  | 'before-reading'
  /** A result of a day that was still to come. */
  | 'ahead'
  /** A plan for a day further off than one may be. */
  | 'plan-far'
  /** Another result says otherwise, and the medical team has not said with its own hand which one holds. */
  | 'differs'
  /** A later word by the medical team's own hand stands in its place. */
  | 'replaced';

/** A plan is for a day at most so many days off: half a year covers the repeat of a kitten's test. Our choice, no source. */
export const longestPlan_days = 183;

/** Whether a word counts, as a result or as a plan; of results that differ, the word stands and settles nothing. */
export const counts = ({ doubt }: FollowUp): boolean => doubt === undefined || doubt === 'differs';

/** Whether it is a result that answers the question of a reactive test. */
export const settles = ({ says, doubt }: FollowUp): boolean =>
  says.is === 'result' && says.outcome !== 'unclear' && doubt === undefined;
