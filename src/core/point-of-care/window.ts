import { Temporal } from 'temporal-polyfill';
import type { KitType } from '../dosing/formulary.js';
import { secondsUntil } from './kit.js';

type Timing = Pick<KitType, 'readOpens_s' | 'readCloses_s'>;

/** When a started test may be read. Both ends belong to the window, to the whole second. */
export interface ReadWindow {
  readonly startedAt: string;
  readonly opensAt: string;
  readonly closesAt: string;
}

/** The read window of a test started at an instant: end instants, never counted ticks. */
export function windowOf(kit: Timing, startedAt: string): ReadWindow {
  const start = Temporal.Instant.from(startedAt);
  return {
    startedAt: start.toString(),
    opensAt: start.add({ seconds: kit.readOpens_s }).toString(),
    closesAt: start.add({ seconds: kit.readCloses_s }).toString(),
  };
}

export type WindowPhase =
  | { readonly phase: 'running'; readonly remaining_s: number; readonly until: string }
  | { readonly phase: 'open'; readonly remaining_s: number; readonly until: string }
  | { readonly phase: 'closed'; readonly over_s: number; readonly since: string };

/**
 * Where `now` lies: before the window (seconds to its opening), in it (seconds to its close), or after it (seconds since).
 * Recomputed from instants, so sleep, reload and throttled timers change nothing. The last second counts whole.
 */
export function phaseAt(window: ReadWindow, now: string): WindowPhase {
  const toOpen = secondsUntil(now, window.opensAt);
  if (toOpen > 0) return { phase: 'running', remaining_s: toOpen, until: window.opensAt };
  const toClose = secondsUntil(now, window.closesAt);
  if (toClose >= 0) return { phase: 'open', remaining_s: toClose, until: window.closesAt };
  return { phase: 'closed', over_s: -toClose, since: window.closesAt };
}
