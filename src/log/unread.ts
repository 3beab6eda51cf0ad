import type { Envelope } from './record.js';

/** What can still be told of a record of the log that cannot be read; nothing is worked out from it. */
export interface UnreadRecord {
  /** Its place in the log; null when that is not known. */
  readonly seq: number | null;
  readonly kind: string;
  readonly subject: string;
}

export const unreadOf = (
  raw: Partial<Pick<Envelope, 'kind' | 'subject'>> & { readonly seq?: number },
): UnreadRecord => ({
  seq: raw.seq ?? null,
  kind: String(raw.kind),
  subject: String(raw.subject),
});
