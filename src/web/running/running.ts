import type { Animal, TestRun } from '../../core/animal/animal.js';
import { inOwnClock, type OwnClock } from '../../core/clocked.js';
import type { KitType } from '../../core/dosing/formulary.js';
import type { PersonId, RoundId } from '../../core/ids.js';
import { type ReadWindow, windowOf } from '../../core/point-of-care/window.js';
import type { RunningTest } from '../../log/views/blood-tests/running-tests.js';
import { msOf } from '../clock.js';
import { readPath } from '../parts/round-paths.js';

/** A running test as this device shows it. */
export interface Running {
  readonly animal: Animal['id'];
  readonly name: string;
  readonly round: RoundId;
  readonly run: TestRun;
  readonly kit: KitType;
  /** By this device's clock. */
  readonly window: ReadWindow;
  /** Whose clock the time rests on when that cannot be checked; null when it can. */
  readonly unsureOf: PersonId | null;
  /** Where it is read. */
  readonly path: string;
}

/** A start may lie so far ahead by two clocks that were measured; more is a clock that was set; ours. */
const jitter_ms = 2_000;

/**
 * When a test that was started on whatever device is read, by this one's clock. A start that has not come yet by that
 * clock is a clock's fault: the test then shows its whole length, never more, and says whose clock it rests on.
 */
export function shownHere({ animal, run, start, kit, round }: RunningTest, own: OwnClock, now_ms: number): Running {
  const { at, sure } = inOwnClock(start, own);
  const early_ms = msOf(at) - now_ms;
  return {
    animal: animal.id,
    name: animal.name || animal.label,
    round,
    run,
    kit,
    window: windowOf(kit, early_ms > 0 ? new Date(now_ms).toISOString() : at),
    unsureOf: sure && early_ms <= jitter_ms ? null : start.by,
    path: readPath(round, animal.id, run.run),
  };
}

export type Phase = 'running' | 'open' | 'closed';

/** The last second of the window counts whole. */
export function phaseOf({ window }: Pick<Running, 'window'>, now_ms: number): Phase {
  if (now_ms < msOf(window.opensAt)) return 'running';
  return now_ms < msOf(window.closesAt) + 1_000 ? 'open' : 'closed';
}

const turn: readonly Phase[] = ['open', 'running', 'closed'];

/** What can be read now first, the one that closes first before the others; what nobody read in time last. */
export const inTurn = (tests: readonly Running[], now_ms: number): Running[] =>
  tests.toSorted(
    (a, b) =>
      turn.indexOf(phaseOf(a, now_ms)) - turn.indexOf(phaseOf(b, now_ms)) ||
      (a.window.closesAt < b.window.closesAt ? -1 : 1),
  );
