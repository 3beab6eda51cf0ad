import { z } from 'zod';
import { InstantText } from '../core/calendar.js';
import { type Clocked, moved, msBetween, type OwnClock } from '../core/clocked.js';
import type { DeviceId, PersonId } from '../core/ids.js';

/*
 * A device's clock may be wrong by any amount, and the clock of a test is read on other devices than the one that
 * started it. Three ways to correct it were weighed:
 *
 *   receivedAt - recordedAt       an offline record is received long after: a bound, and only for clocks that are ahead
 *   the server notes it on taking the clock may have been set between writing and sending; a large batch takes time
 *   the device measures, and its  known to a few milliseconds, also for what is written offline; stays on the record,
 *   records say what was known    so that every device comes to the same instant, whenever it hears of it
 *
 * The third is done. The first is kept as a check: nothing is received before it was written, so what seems to be is
 * proof that the clock was set after it was measured, and then the time of arrival is the best that is known.
 */

/** No clock of a device is off by more than a century: what says so would put times where no calendar reaches. */
const farthest_ms = 100 * 365.25 * 86_400_000;

/** How the clock of a device stood when it last asked the server, as its records say it. */
export const DeviceClock = z.object({
  /** Device minus server, milliseconds: above zero the device is fast. */
  ahead_ms: z.number().int().min(-farthest_ms).max(farthest_ms),
  /** When it was measured, by the device's own clock. */
  measuredAt: InstantText,
});
export type DeviceClock = z.infer<typeof DeviceClock>;

/** A measurement with how far it may be off: half of the time the answer took. */
export const Measured = DeviceClock.extend({ uncertain_ms: z.number().int() });
export type Measured = z.infer<typeof Measured>;

/** An answer that took longer says too little about the clock; ours. */
const longestAnswer_ms = 10_000;
/** What a clock may drift between two measurements without being taken for another one; ours. */
const drift_ms = 500;
/** What is written within so short a time after it happened was timed by the device, not told by a person; ours. */
const atOnce_ms = 60_000;
/** A measurement is trusted for so long: a phone that has been away for days may have been set by hand; ours. */
const trusted_ms = 24 * 3_600_000;
/** Server and device are compared to within this when one seems to be proof against the other; ours. */
const slack_ms = 2_000;

/**
 * The clock as measured by one question to the server: it was asked at `sentAt` and answered at `gotAt` by the device's
 * clock, and said `serverAt`, taken as the middle of the two (as time servers do; RFC 5905, section 8). What was known before
 * is kept as it is while the new measurement agrees with it, so that no running clock jumps by a fraction of a second.
 */
export function measureClock(
  before: Measured | null,
  sentAt: string,
  serverAt: string,
  gotAt: string,
): Measured | null {
  const took = msBetween(sentAt, gotAt);
  if (took < 0 || took > longestAnswer_ms) return before;
  const ahead_ms = Math.round(msBetween(serverAt, sentAt) + took / 2);
  const uncertain_ms = Math.ceil(took / 2);
  const agrees =
    before !== null && Math.abs(ahead_ms - before.ahead_ms) <= uncertain_ms + before.uncertain_ms + drift_ms;
  if (agrees && uncertain_ms * 2 >= before.uncertain_ms) return { ...before, measuredAt: gotAt };
  return { ahead_ms, measuredAt: gotAt, uncertain_ms };
}

/** Whether a measurement still says how the clock stands at an instant of that same clock. */
export function isTrusted({ measuredAt }: DeviceClock, at: string): boolean {
  const age = msBetween(measuredAt, at);
  // Before its own measurement: the clock has been set back since.
  return age >= 0 && age <= trusted_ms;
}

/** The clock as a record written at `now` may name it: only for what happened just then, and only when it is known. */
export const clockFor = (clock: DeviceClock | null, happenedAt: string, now: string): DeviceClock | undefined =>
  clock === null || Math.abs(clock.ahead_ms) > farthest_ms || !isAtOnce(happenedAt, now) || !isTrusted(clock, now)
    ? undefined
    : { ahead_ms: clock.ahead_ms, measuredAt: clock.measuredAt };

/** This device's clock, for what is shown on it. One that was set back since it was measured is taken to be right now. */
export function ownClock(device: string, clock: DeviceClock | null, now: string): OwnClock {
  if (clock === null || msBetween(clock.measuredAt, now) < 0) return { device, ahead_ms: 0, sure: false };
  return { device, ahead_ms: clock.ahead_ms, sure: isTrusted(clock, now) };
}

const isAtOnce = (happenedAt: string, recordedAt: string): boolean =>
  Math.abs(msBetween(happenedAt, recordedAt)) <= atOnce_ms;

interface Timed {
  readonly happenedAt: string;
  readonly recordedAt: string;
  readonly receivedAt?: string;
  readonly serverBehind_ms?: number;
  readonly clock?: DeviceClock | undefined;
  /** The times as written, where the folds count by settled ones. */
  readonly said?: Pick<Timed, 'happenedAt' | 'recordedAt' | 'clock'>;
  readonly device: DeviceId;
  readonly by: PersonId;
}

/** When something happened, by the clock of the device that wrote it down and by the server's. Recorded times stay as they are. */
export function clocked(record: Timed): Clocked {
  const { device, by } = record;
  const receivedAt = record.serverBehind_ms === undefined ? record.receivedAt : undefined;
  const { happenedAt, recordedAt, clock } = record.said ?? record;
  const base = { at: happenedAt, device, by };
  if (clock === undefined && !isAtOnce(happenedAt, recordedAt)) {
    // A time that a person has told, from a clock on the wall or from paper: no device's clock is in it.
    return { ...base, byServer: happenedAt, ahead_ms: 0, sure: true };
  }
  const known_ms = clock?.ahead_ms ?? 0;
  const early_ms = receivedAt === undefined ? 0 : msBetween(receivedAt, moved(recordedAt, -known_ms));
  const proven = early_ms > slack_ms;
  const ahead_ms = proven ? known_ms + early_ms : known_ms;
  return {
    ...base,
    byServer: moved(happenedAt, -ahead_ms),
    ahead_ms,
    sure: clock !== undefined && !proven && isTrusted(clock, recordedAt),
  };
}
