import type { LogRecord } from '../record.js';
import { span } from './ahead-flags.js';

/** Of an animal's records the first that came in while the server's clock lay behind its own log; null when none did. */
export function cameInBehind(records: readonly LogRecord[]): LogRecord | null {
  let first: LogRecord | null = null;
  for (const record of records) {
    if (record.serverBehind_ms === undefined) continue;
    if (first === null || (record.seq ?? 0) < (first.seq ?? 0)) first = record;
  }
  return first;
}

/** What its flag says: by how much, and as come in when it counts. */
export const behindValues = ({ serverBehind_ms, receivedAt, recordedAt }: LogRecord) => ({
  behind: span(serverBehind_ms ?? 0),
  at: { instant: receivedAt ?? recordedAt },
});
