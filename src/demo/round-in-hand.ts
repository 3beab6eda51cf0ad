import type { CalendarDate } from '../core/calendar.js';
import type { KitType } from '../core/dosing/formulary.js';
import type { AnimalId, LotId, PersonId, RoundId, RunId } from '../core/ids.js';
import type { Seen } from '../core/point-of-care/result.js';
import { windowOf } from '../core/point-of-care/window.js';
import { readTest } from '../log/commands/round.js';
import { instantOf, type Ms, msOf, seconds } from './instant.js';
import type { Hand } from './journal.js';
import type { Scene } from './scene.js';
import type { Shelf } from './shelf.js';

/** A test whose clock runs while other animals are handled. */
export interface RunningTest {
  readonly animal: AnimalId;
  readonly run: RunId;
  readonly kit: KitType;
  readonly readAt: Ms;
  readonly seen: Seen;
}

/** A round while it is being worked: the wall clock of the team, its cart and its running tests. */
export interface RoundInHand {
  readonly scene: Scene;
  readonly round: RoundId;
  readonly on: CalendarDate;
  readonly daysAgo: number;
  readonly hand: Hand;
  readonly holder: PersonId;
  readonly shelf: Shelf;
  /** When the tests of a box were taken out of the cold. */
  readonly outOfCold: Map<LotId, string>;
  readonly running: RunningTest[];
  /** Let time pass and read every test whose moment has come. Returns the instant of the next act. */
  readonly pass: (least_s: number, most_s: number) => string;
  /** Wait for the tests that still run, and read them. */
  readonly waitForTests: () => void;
}

export function roundInHand(
  facts: Omit<RoundInHand, 'outOfCold' | 'running' | 'pass' | 'waitForTests'>,
  start: Ms,
): RoundInHand {
  const { scene, hand, round } = facts;
  const running: RunningTest[] = [];
  let clock = start;

  const readDue = (): void => {
    for (;;) {
      const next = running.toSorted((a, b) => a.readAt - b.readAt)[0];
      if (next === undefined || next.readAt > clock) return;
      running.splice(running.indexOf(next), 1);
      // The team looks a few seconds after the alarm, or as soon as its hands are free.
      const at = instantOf(clock);
      const body = { run: next.run, seen: { ...next.seen }, secondReader: facts.holder, round };
      scene.journal.write(hand, readTest(next.animal, next.kit, body, at));
      clock += seconds(scene.chance.whole(8, 15));
    }
  };

  return {
    ...facts,
    outOfCold: new Map(),
    running,
    pass: (least_s, most_s) => {
      clock += seconds(scene.chance.whole(least_s, most_s));
      readDue();
      return instantOf(clock);
    },
    waitForTests: () => {
      while (running.length > 0) {
        clock = Math.max(clock, Math.min(...running.map((test) => test.readAt)));
        readDue();
      }
    },
  };
}

/** A few seconds after the window opens, or well after it has closed. */
export function readingTime(kit: KitType, startedAt: string, late: boolean): Ms {
  const window = windowOf(kit, startedAt);
  return late ? msOf(window.closesAt) + seconds(240) : msOf(window.opensAt) + seconds(5);
}
