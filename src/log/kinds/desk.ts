import { z } from 'zod';

/** A person has taken a flag on. Subject `flag:KEY`. */
export const FlagTaken = z.object({ flag: z.string().min(1).max(200) });

/** A person has answered a flag; nothing disappears without an answer. */
export const FlagAnswered = z.object({
  flag: z.string().min(1).max(200),
  answer: z.enum(['done', 'explained', 'not-a-problem', 'passed-on']),
  note: z.string().min(1).max(1000),
});

/** The corrected record was entered in error and counts no longer. */
export const RecordWithdrawn = z
  .object({
    why: z.enum(['wrong-tap', 'wrong-animal', 'did-not-happen', 'other']).nullable().default(null),
    /** In words, where no reason of the list was chosen. */
    reason: z.string().max(300).default(''),
  })
  .refine(({ why, reason }) => why !== null || reason.trim() !== '', 'a reason is missing');

/** A file of animals was brought in. Subject `file:DIGEST`. */
export const FileImported = z.object({
  name: z.string().max(200),
  digest: z.string().length(64),
  accepted: z.number().int().min(0),
  doubtful: z.number().int().min(0),
  refused: z.number().int().min(0),
  columns: z.record(z.string(), z.string()),
});
