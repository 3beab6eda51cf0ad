import { z } from 'zod';
import { FollowUpSays } from '../../core/animal/follow-up.js';
import { InstantText } from '../../core/calendar.js';
import { KitTypeId, LotId, PersonId, RoundId, RunId, ScheduleId } from '../../core/ids.js';
import { Told } from './told.js';
import { NotGivenReason } from './treatment.js';

export const SampleDrawn = z.object({
  run: RunId,
  schedule: ScheduleId,
  /** Blood taken, whole microlitres; failed and clotted draws count too. */
  volume_ul: z.number().int().min(0).max(20_000),
  /** The sheet does not say how much: the least that the kit takes is counted, so that the ledger is not too low. */
  assumed: z.boolean().optional(),
  usable: z.boolean(),
  sample: z.enum(['whole-blood', 'plasma', 'serum']),
  site: z.string().max(80).default(''),
  /** The lot of ready-prepared syringes that the one used came from, also for a try that gave no blood; null: nobody said. */
  syringeLot: LotId.nullable().default(null),
  round: RoundId.nullable().default(null),
});

/** The kit was activated; the read window counts from `happenedAt` of this record. */
export const TestStarted = z.object({
  run: RunId,
  schedule: ScheduleId,
  kitType: KitTypeId,
  lot: LotId.nullable(),
  /** As on box and bottle; empty when nobody wrote it down. */
  kitLot: z.string().max(60),
  conjugateLot: z.string().max(60),
  /** When the kit came out of the cold, if known. */
  outOfColdAt: InstantText.nullable(),
  /** No time was written down: `happenedAt` is no more than the day, and the window cannot be judged. */
  untimed: z.boolean().optional(),
  /** Drops put on the kit, if somebody wrote them down. */
  drops: z.number().int().min(0).max(50).optional(),
  note: z.string().max(500).optional(),
  /** The blood had waited longer than the round allows, and who started said why it goes on. */
  waited: z
    .object({
      minutes: z.number().int().min(0),
      limit: z.number().int().min(0),
      /** Empty where the limit passed while the kit was being used. */
      reason: z.string().max(300),
    })
    .optional(),
  round: RoundId.nullable().default(null),
});

/** What was seen in each zone of the kit at `happenedAt`; what it means is worked out from the kit's data. */
export const TestRead = z.object({
  run: RunId,
  seen: z.record(z.string(), z.enum(['seen', 'faint', 'not-seen'])),
  secondReader: PersonId.nullable().default(null),
  /** A second look was asked for, and nobody could look then. */
  second: z.literal('not-looked').optional(),
  /** As at the start: no time was written down. */
  untimed: z.boolean().optional(),
  round: RoundId.nullable().default(null),
});

export const TestAbandoned = z.object({
  run: RunId,
  /** `not-written`: a sheet of paper has no reading. */
  why: z.enum([...NotGivenReason.options, 'not-written']),
  note: z.string().max(300).default(''),
  round: RoundId.nullable().default(null),
});

/** What the medical team says about a reactive test of a schedule. Subject `animal:ID`. */
export const TestFollowedUp = z.object({
  schedule: ScheduleId,
  says: FollowUpSays,
  /** Who of the medical team says so. */
  person: PersonId,
  /** The laboratory told it by telephone. */
  told: Told.nullable().default(null),
});
