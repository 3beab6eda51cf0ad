import { useSyncExternalStore } from 'react';
import { tellMissing } from '../../words/english-as-needed.js';

let fetched: Promise<void> | null = null;
let times = 0;
const listeners = new Set<() => void>();

/** Fetches every message once, and has the page say everything anew. After a failure the next missing key asks again. */
export function fetchEvery(): Promise<void> {
  fetched ??= import('./every-message.js').then(
    () => {
      times += 1;
      for (const listener of listeners) listener();
    },
    () => {
      fetched = null;
    },
  );
  return fetched;
}

/** Has what is said without its message fetch it; called once, before anything is said. */
export const fetchMissingWords = (): void => tellMissing(() => void fetchEvery());

/** Draws a component again once messages that were missing are here. */
export const useWords = (): number =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => times,
  );
