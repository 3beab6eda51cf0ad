import { Temporal } from 'temporal-polyfill';
import { epochMs } from './calendar.js';
import type { DeviceId, PersonId } from './ids.js';

/** An instant that a device took from its own clock, with what is known about that clock. */
export interface Clocked {
  /** As the device's clock showed it: what the record says. */
  readonly at: string;
  /** The same instant by the server's clock, as far as it can be known. */
  readonly byServer: string;
  /** By how much the device's clock was taken to be ahead of the server's; below zero it was behind. */
  readonly ahead_ms: number;
  /** False when nobody had measured that clock, when it was set since, or when it is proven to have been wrong. */
  readonly sure: boolean;
  readonly device: DeviceId;
  readonly by: PersonId;
}

/** The clock of the device on which something is shown. */
export interface OwnClock {
  readonly device: string;
  readonly ahead_ms: number;
  readonly sure: boolean;
}

/** Two measurements of one clock that has not been set differ by less; ours. */
const sameClock_ms = 5_000;

/** UTC ISO text of an instant moved by so many milliseconds. */
export const moved = (instant: string, by_ms: number): string =>
  Temporal.Instant.from(instant).add({ milliseconds: by_ms }).toString({ fractionalSecondDigits: 3 });

/** Milliseconds from one instant to another; below zero when the other one was earlier. */
export const msBetween = (from: string, to: string): number => epochMs(to) - epochMs(from);

const isOneClock = (a: Pick<Clocked, 'device' | 'ahead_ms'>, b: Pick<OwnClock, 'device' | 'ahead_ms'>): boolean =>
  a.device === b.device && Math.abs(a.ahead_ms - b.ahead_ms) <= sameClock_ms;

/**
 * An instant as the clock of this device would have shown it. What this device took from the clock it still has stays
 * as it is, to the millisecond; all else goes by way of the server's clock.
 */
export function inOwnClock(one: Clocked, own: OwnClock): { readonly at: string; readonly sure: boolean } {
  if (isOneClock(one, own)) return { at: one.at, sure: true };
  return { at: moved(one.byServer, own.ahead_ms), sure: one.sure && own.sure };
}

/** Two instants, each taken from the clock of its device, by one and the same clock. */
export function byOneClock(a: Clocked, b: Clocked): readonly [string, string] {
  return isOneClock(a, b) ? [a.at, b.at] : [a.byServer, b.byServer];
}
