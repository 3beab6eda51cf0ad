import { msBetween } from '../core/clocked.js';

/*
 * The time at which a record comes in proves something about it: nothing happened later than the server was told of it. A
 * server whose clock was set back, or that starts without one, would put everything that comes in back by as much. Its own log
 * knows better: it is never earlier than its last record.
 *
 *   clock at or after the last record   the clock
 *   clock before it                     the time of the last record, so that times of arrival never go backwards
 *   ... by more than 2 min              the same, and the record says by how much: its arrival proves nothing about it
 *
 * Whether the clock is slow now or was fast before, the server cannot tell; people are told.
 */

/** As for the clocks of devices (LOG-R14): what clocks differ by without anybody having set them; ours. */
const slack_ms = 2 * 60_000;

export interface Arrival {
  readonly receivedAt: string;
  /** How far the server's clock lay behind its own log; absent when it did not, or by no more than clocks differ. */
  readonly serverBehind_ms?: number;
}

/** When something comes in, by a clock and by when the last record came in (null: none has). */
export function arrivalAt(clock: string, last: string | null): Arrival {
  const behind_ms = last === null ? 0 : msBetween(clock, last);
  if (last === null || behind_ms <= 0) return { receivedAt: clock };
  return behind_ms > slack_ms ? { receivedAt: last, serverBehind_ms: behind_ms } : { receivedAt: last };
}
