import { moved, msBetween, type OwnClock } from '../core/clocked.js';
import type { LogRecord } from './record.js';

/*
 * Nothing happened later than the server was told of it. A record stamped ahead by a wrong clock, or by a slip of the
 * hand, would otherwise rule until that day: a weight over later weighings, a role, a document, a dose that has been given
 * and still looks due. The stored record stays as written; only the folds take the settled time.
 *
 *   clock measured ahead   put right by as much; exact, also for what was written without the network
 *   still after arrival    counts from when it came in; what is true lies before that, nobody knows how far
 *   behind, or under 2 min left as it is: a phone that is slow must not see its own records ahead of it
 */

/** How far ahead a clock may be before its records are put right: as for the notice on the device (LOG-R14); ours. */
const slack_ms = 2 * 60_000;

/** The record as the folds count it: its own times where they can be true, else settled ones with what was `said`. */
export function settled(record: LogRecord): LogRecord {
  const { happenedAt, recordedAt, clock } = record;
  // A server whose own clock lay behind has nothing to say about the clocks of others.
  const receivedAt = record.serverBehind_ms === undefined ? record.receivedAt : undefined;
  const ahead_ms = clock !== undefined && clock.ahead_ms > slack_ms ? clock.ahead_ms : 0;
  // As text: exact to within a second, which is well inside what is let pass, and nearly every record ends here.
  if (record.said !== undefined || (ahead_ms === 0 && (receivedAt === undefined || happenedAt <= receivedAt)))
    return record;
  const happened = ahead_ms === 0 ? happenedAt : moved(happenedAt, -ahead_ms);
  const written = ahead_ms === 0 ? recordedAt : moved(recordedAt, -ahead_ms);
  const early = receivedAt !== undefined && msBetween(receivedAt, happened) > slack_ms;
  if (ahead_ms === 0 && !early) return record;
  const { clock: _clock, ...rest } = record;
  const said = { happenedAt, recordedAt, ...(clock === undefined ? {} : { clock }), by: early ? 'arrival' : 'clock' };
  const recorded = early && msBetween(receivedAt, written) > 0 ? receivedAt : written;
  return { ...rest, happenedAt: early ? receivedAt : happened, recordedAt: recorded, said } as LogRecord;
}

/** How far ahead of the time it counts by a record was stamped, milliseconds; 0 for one that was left as it is. */
export const stampedAhead_ms = ({ happenedAt, said }: LogRecord): number =>
  said === undefined ? 0 : msBetween(happenedAt, said.happenedAt);

/** Now by the times that the folds count by, on a device that knows its own clock to be fast. */
export const settledNow = (own: OwnClock, now: string): string =>
  own.sure && own.ahead_ms > slack_ms ? moved(now, -own.ahead_ms) : now;
