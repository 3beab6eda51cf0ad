import { z } from 'zod';

/**
 * A device that had read further than the server's records go, because they were put back from an older copy, has sent
 * what was missing. Subject `shelter:ID`. One such event is named by the place and hash up to which both agree.
 */
export const RecordsSentAgain = z.object({
  /** Place in the log up to which device and server agree; 0 when in nothing. */
  after: z.number().int().min(0),
  /** Hash of the record at that place. */
  hash: z.string().max(64),
  /** How far the device had read. */
  had: z.number().int().min(0),
  /** Records that the device held beyond that place and has sent. */
  records: z.number().int().min(0),
});
