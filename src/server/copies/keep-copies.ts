import { setTimeout as wait } from 'node:timers/promises';
import { type Outcome, type Said, said } from '../../core/said.js';
import type { CopyPlace } from './make-copy.js';
import { filesIn, whyNot } from './place.js';
import { newestCopy } from './rule.js';

export interface CopiesAsked extends CopyPlace {
  /** Milliseconds from one copy to the next. */
  readonly every_ms: number;
}

/** How it stands with the copies. */
export interface CopiesState {
  /** When the newest copy in the place was made, UTC ISO text. */
  readonly last: string | null;
  /** Why the last try made none; null when it made one, or there was none yet. */
  readonly failed: Said | null;
}

/** Milliseconds after which a copy that failed is tried again, at most; a disk may have been plugged in. Ours. */
const again_ms = 2 * 60_000;

/** Milliseconds after which it is looked whether the copies are still there; ours. */
const look_ms = 60_000;

/**
 * Make copies for as long as the server runs: one when the newest in the place is older than the time between two. `make`
 * makes one; `tell` hears what is wrong. Gives how it stands, and a function that stops.
 */
export function keepCopies(
  asked: CopiesAsked,
  clock: () => string,
  make: (at: string) => Promise<Outcome<string>>,
  tell: (what: Said) => void,
): { readonly state: () => CopiesState; readonly stop: () => void } {
  const stopped = new AbortController();
  let failed: Said | null = null;
  const last = (): string | null => {
    const files = filesIn(asked.folder);
    return files.ok ? newestCopy(files.value, clock()) : null;
  };
  const due_ms = (): number => {
    const newest = last();
    return newest === null ? 0 : Math.max(0, asked.every_ms - (Date.parse(clock()) - Date.parse(newest)));
  };
  const go = async (): Promise<void> => {
    for (;;) {
      const next = due_ms();
      if (next === 0) {
        const at = clock();
        const made = await make(at).catch(
          (error: unknown): Outcome<string> => ({ ok: false, why: whyNot(error, asked.folder) }),
        );
        const before = failed;
        failed = made.ok ? null : made.why;
        // Said once for each thing that is wrong, and not at every try.
        if (!made.ok && before?.say !== made.why.say) tell(copyFailed(made.why, last()));
      }
      const rest = failed === null ? Math.min(look_ms, Math.max(due_ms(), 1000)) : Math.min(again_ms, asked.every_ms);
      await wait(rest, undefined, { signal: stopped.signal, ref: false });
    }
  };
  go().catch(() => undefined);
  const state = (): CopiesState => {
    const place = filesIn(asked.folder);
    return { last: last(), failed: place.ok ? failed : place.why };
  };
  return { state, stop: () => stopped.abort() };
}

/** What everybody is told while no copy can be made. */
export const copyFailed = (why: Said, last: string | null): Said =>
  last === null ? said('copies.none', { why }) : said('copies.old', { why, at: { instant: last } });
