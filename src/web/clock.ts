import { useEffect, useState } from 'react';
import { type CalendarDate, dayOfInstant } from '../core/calendar.js';

/**
 * The only clock of the web app. Milliseconds since 1970; a test may put its own on the window before or after the
 * page has loaded.
 */
declare global {
  interface Window {
    roundhandClock?: () => number;
  }
}

export const nowMs = (): number => window.roundhandClock?.() ?? Date.now();

/** Now as UTC ISO text. */
export const now = (): string => new Date(nowMs()).toISOString();

export const msOf = (instant: string): number => Date.parse(instant);

/**
 * Now, looked at again every `every_ms` and at once when the page comes back to the front: a timer asks what time it is
 * and never counts its own ticks.
 */
export function useNow(every_ms: number): number {
  const [at, setAt] = useState(nowMs);
  useEffect(() => {
    const look = (): void => setAt(nowMs());
    look();
    const timer = setInterval(look, every_ms);
    document.addEventListener('visibilitychange', look);
    window.addEventListener('focus', look);
    window.addEventListener('pageshow', look);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', look);
      window.removeEventListener('focus', look);
      window.removeEventListener('pageshow', look);
    };
  }, [every_ms]);
  return at;
}

/** Today where the shelter is, whatever the device's own zone. */
export function useToday(zone: string): CalendarDate {
  const at = useNow(20_000);
  return dayOfInstant(new Date(at).toISOString(), zone);
}
