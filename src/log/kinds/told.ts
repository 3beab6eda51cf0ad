import { z } from 'zod';

/**
 * That something was told by telephone: who did it is the record's `by`, who heard it and wrote it down its `writtenBy`.
 * What was heard is said back to whoever told it, and counts as read back only once they have said yes.
 */
export const Told = z.object({
  how: z.literal('telephone'),
  readBack: z.boolean(),
  /** Which laboratory or clinic, where it is nobody on the list of people here; no names or numbers of people. */
  from: z.string().max(120).default(''),
});
export type Told = z.input<typeof Told>;
