import { useEffect } from 'react';
import { signal } from './sound.js';

/** Milliseconds between two soundings of an alarm that nobody has answered. */
const again_ms = 6_000;

/** Sounds at once and again and again while there is something to ring for; something else begins anew. */
export function useAlarm(ring: string | null): void {
  useEffect(() => {
    if (ring === null) return;
    signal('read');
    const timer = setInterval(() => signal('read'), again_ms);
    return () => clearInterval(timer);
  }, [ring]);
}
