import { Temporal } from 'temporal-polyfill';
import type { KitType } from '../dosing/formulary.js';
import { kitReady, secondsUntil } from './kit.js';

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

/** Facts of one run as far as they have happened. */
export interface RunSoFar {
  readonly outOfColdAt: string | null;
  readonly startedAt: string | null;
  readonly readAt: string | null;
  readonly abandoned?: boolean;
}

export type RunPhase =
  | 'warming'
  /** Kit warm, not started. */
  | 'ready'
  /** Kit not usable: out of the cold too long, or nobody knows since when. */
  | 'kit-not-ready'
  | 'running'
  | 'open'
  | 'closed'
  | 'read'
  | 'abandoned';

/** The phase of a whole run and the seconds until the next change, null when nothing is awaited. */
export function runPhase(
  kit: KitType,
  run: RunSoFar,
  now: string,
): { readonly phase: RunPhase; readonly remaining_s: number | null } {
  if (run.abandoned === true) return { phase: 'abandoned', remaining_s: null };
  if (run.readAt !== null) return { phase: 'read', remaining_s: null };
  if (run.startedAt !== null) {
    const at = phaseAt(windowOf(kit, run.startedAt), now);
    return { phase: at.phase, remaining_s: at.phase === 'closed' ? null : at.remaining_s };
  }
  const readiness = kitReady(kit, run.outOfColdAt, now);
  if (readiness.is === 'warming') return { phase: 'warming', remaining_s: readiness.remaining_s };
  return { phase: readiness.is === 'ready' ? 'ready' : 'kit-not-ready', remaining_s: null };
}
