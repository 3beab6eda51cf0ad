import { z } from 'zod';
import { InstantText, ZoneName } from '../core/calendar.js';
import { DeviceId, PersonId, RecordId, ShelterId } from '../core/ids.js';

/**
 * The envelope of every record. A record is a fact in the words of the people who did it: it is never changed and
 * never removed. A correction is a new record of the same kind whose `corrects` names the old one; a record entered
 * in error is answered by a `record-withdrawn`. Both stay visible.
 */
export const Envelope = z.object({
  /** UUIDv7, made by the device; appending the same id again changes nothing. */
  id: RecordId,
  shelter: ShelterId,
  /** What the record is about: `animal:ID`, `lot:ID`, `round:ID`, `section:ID`, `person:ID`, `document:ID`, `shelter:ID`, `flag:KEY`, `file:ID`. */
  subject: z.string().regex(/^(animal|lot|round|section|person|document|shelter|flag|file):.+$/),
  kind: z.string(),
  /** Version of the body's shape; older ones are read through upcasts. */
  v: z.number().int().min(1),
  body: z.unknown(),
  /** When it happened in the world. */
  happenedAt: InstantText,
  /** The shelter's zone at that time. */
  zone: ZoneName,
  /** When the device wrote it down. */
  recordedAt: InstantText,
  /** Who did it, and with whom. */
  by: PersonId,
  with: PersonId.optional(),
  device: DeviceId,
  /** Counts up by one on each device, so that a hole shows a lost record. */
  deviceSeq: z.number().int().min(1),
  corrects: RecordId.optional(),
});
export type Envelope = z.infer<typeof Envelope>;

/** A record as the server keeps it. */
export const StoredEnvelope = Envelope.extend({
  /** Position in the shelter's log, from 1 without gaps. */
  seq: z.number().int().min(1),
  /** SHA-256 over the previous hash and this record, hex. */
  hash: z.string().length(64),
  receivedAt: InstantText,
});
export type StoredEnvelope = z.infer<typeof StoredEnvelope>;
