import { useSyncExternalStore } from 'react';
import { ProtocolDocument } from '../../../../core/protocol/document/document.js';

/**
 * The version somebody is writing. It stays on this device, over a closed page or a flat battery, until it is laid down
 * as a version or put away; it is no record and nobody else sees it.
 */
const place = 'roundhand-protocol-copy';

let kept: ProtocolDocument | null | undefined;
const watchers = new Set<() => void>();

function read(): ProtocolDocument | null {
  if (kept !== undefined) return kept;
  kept = null;
  try {
    const parsed = ProtocolDocument.safeParse(JSON.parse(localStorage.getItem(place) ?? 'null'));
    if (parsed.success) kept = parsed.data;
  } catch {
    // Storage switched off, or written by something else: then there is no copy.
  }
  return kept;
}

export function keepCopy(document: ProtocolDocument | null): void {
  kept = document;
  try {
    if (document === null) localStorage.removeItem(place);
    else localStorage.setItem(place, JSON.stringify(document));
  } catch {
    // Without storage the copy lives as long as the page does.
  }
  for (const watch of watchers) watch();
}

const subscribe = (watch: () => void): (() => void) => {
  watchers.add(watch);
  return () => watchers.delete(watch);
};

export const useCopy = (): ProtocolDocument | null => useSyncExternalStore(subscribe, read);
