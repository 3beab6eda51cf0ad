import { useCallback, useRef, useState } from 'react';
import type { Outcome, Said } from '../../core/said.js';
import type { AppendOptions } from '../../device/store/store.js';
import type { Draft, LogRecord } from '../../log/record.js';
import { scans } from '../scan/scan-queue.js';
import { store } from './here.js';

export type SaveState =
  | { readonly is: 'idle' }
  | { readonly is: 'saving' }
  | { readonly is: 'saved' }
  | { readonly is: 'failed'; readonly why: Said };

export interface Save {
  readonly state: SaveState;
  /** Resolves to the records once they are durable, or null; while one save is at work another is not started, and scans wait. */
  readonly save: (what: readonly Draft[] | Outcome<Draft[]>, options?: AppendOptions) => Promise<LogRecord[] | null>;
  readonly clear: () => void;
}

export function useSave(): Save {
  const [state, setState] = useState<SaveState>({ is: 'idle' });
  const busy = useRef(false);
  const save = useCallback(async (what: readonly Draft[] | Outcome<Draft[]>, options?: AppendOptions) => {
    if (busy.current) return null;
    const drafts = 'ok' in what ? what : { ok: true as const, value: what };
    if (!drafts.ok) {
      setState({ is: 'failed', why: drafts.why });
      return null;
    }
    busy.current = true;
    const free = scans.hold();
    setState({ is: 'saving' });
    try {
      const outcome = await store.append(drafts.value, options);
      setState(outcome.ok ? { is: 'saved' } : { is: 'failed', why: outcome.why });
      return outcome.ok ? outcome.value : null;
    } finally {
      busy.current = false;
      free();
    }
  }, []);
  const clear = useCallback(() => setState({ is: 'idle' }), []);
  return { state, save, clear };
}
