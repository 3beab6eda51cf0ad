import { epochMs } from '../../core/calendar.js';
import { inOwnClock, type OwnClock } from '../../core/clocked.js';
import type { Visit } from '../views/round-facts.js';
import { type Shelter, sectionOf } from '../views/shelter.js';

/** What still has to stay wet: the name of the section, and until when, milliseconds since 1970. */
export interface WetEnd {
  readonly at_ms: number;
  readonly section: string;
}

/**
 * What was wiped on leaving sections and still has to stay wet, each section once, the last end first. Counted from the
 * instant of leaving, by this device's clock.
 */
export function wetEnds(
  visits: readonly Pick<Visit, 'section' | 'left'>[],
  shelter: Shelter,
  own: OwnClock,
  now_ms: number,
): WetEnd[] {
  const ends = new Map<string, WetEnd>();
  for (const visit of visits) {
    const section = sectionOf(shelter, visit.section);
    if (visit.left === null || section === null) continue;
    // Never longer than it lasts: what seems not to have begun yet was timed by a clock that was set.
    const from_ms = Math.min(epochMs(inOwnClock(visit.left, own).at), now_ms);
    const at_ms = from_ms + section.contactMinutes * 60_000;
    if (at_ms > Math.max(now_ms, ends.get(section.id)?.at_ms ?? 0)) {
      ends.set(section.id, { at_ms, section: section.name });
    }
  }
  return [...ends.values()].sort((a, b) => b.at_ms - a.at_ms);
}
