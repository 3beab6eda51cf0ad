import { setTimeout as wait } from 'node:timers/promises';
import type { Said } from '../core/said.js';
import type { LogStore } from '../log/store.js';
import { verifyStore } from '../store/verify.js';
import { faultsInWords } from '../store/verify-in-words.js';

/** When the records were last looked through from end to end, and what was found. */
export interface Looked {
  readonly at: string;
  readonly whole: boolean;
  readonly records: number;
  readonly faults: readonly Said[];
}

export interface RollingTimes {
  /** Milliseconds from the start to the first look, and from the end of one to the next. */
  readonly first_ms: number;
  readonly every_ms: number;
}

/** A look reads the whole log: four times a day finds damage while the last backup is still there. Ours. */
export const usualTimes: RollingTimes = { first_ms: 5_000, every_ms: 6 * 3_600_000 };

/** For each millisecond of looking, so many are left to those who ask for something. */
const share = 4;

/**
 * Look the records through again and again, slowly, for as long as the server runs. `found` hears of every look; a look
 * that could not be finished is told as trouble, and the next one comes in its time.
 */
export function rollingCheck(
  store: LogStore,
  clock: () => string,
  times: RollingTimes,
  found: (looked: Looked) => void,
  troubled: (error: unknown) => void,
): () => void {
  const stopped = new AbortController();
  const { signal } = stopped;
  const rest = (ms: number): Promise<void> => wait(ms, undefined, { signal, ref: false });

  const slowly = (): (() => Promise<void>) => {
    let since = performance.now();
    return async () => {
      await rest(1 + share * (performance.now() - since));
      since = performance.now();
    };
  };

  const go = async (): Promise<void> => {
    for (let next_ms = times.first_ms; ; next_ms = times.every_ms) {
      await rest(next_ms);
      try {
        const report = await verifyStore(store, slowly());
        const { whole, records } = report;
        found({ at: clock(), whole, records, faults: faultsInWords(report) });
      } catch (error) {
        if (signal.aborted) return;
        troubled(error);
      }
    }
  };
  // Ends only by being stopped.
  go().catch(() => undefined);
  return () => stopped.abort();
}
