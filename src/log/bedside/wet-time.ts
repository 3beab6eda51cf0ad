import { epochMs } from '../../core/calendar.js';
import { inOwnClock, type OwnClock } from '../../core/clocked.js';
import type { Visit } from '../views/round-facts.js';
import { type Shelter, sectionOf } from '../views/shelter.js';

/**
 * Until when something wiped on leaving a section still has to stay wet, milliseconds since 1970, with the section; the
 * last one when there are several, null when none is awaited. Counted from the instant of leaving, by this device's clock.
 */
export function wetUntil(
  visits: readonly Pick<Visit, 'section' | 'left'>[],
  shelter: Shelter,
  own: OwnClock,
  now_ms: number,
): { readonly at_ms: number; readonly section: string } | null {
  const ends = visits.flatMap((visit) => {
    const section = sectionOf(shelter, visit.section);
    if (visit.left === null || section === null) return [];
    // Never longer than it lasts: what seems not to have begun yet was timed by a clock that was set.
    const from_ms = Math.min(epochMs(inOwnClock(visit.left, own).at), now_ms);
    return [{ at_ms: from_ms + section.contactMinutes * 60_000, section: section.name }];
  });
  return ends.filter((end) => end.at_ms > now_ms).sort((a, b) => b.at_ms - a.at_ms)[0] ?? null;
}
