import type { Visit } from '../../../log/views/round-facts.js';
import { type Shelter, sectionOf } from '../../../log/views/shelter.js';
import { msOf } from '../../clock.js';

/**
 * Until when something wiped on leaving a section still has to stay wet, milliseconds since 1970, with the section; the
 * last one when there are several, null when none is awaited. Counted from the instant of leaving.
 */
export function wetUntil(
  visits: readonly Pick<Visit, 'section' | 'leftAt'>[],
  shelter: Shelter,
  now_ms: number,
): { readonly at_ms: number; readonly section: string } | null {
  const ends = visits.flatMap((visit) => {
    const section = sectionOf(shelter, visit.section);
    if (visit.leftAt === null || section === null) return [];
    return [{ at_ms: msOf(visit.leftAt) + section.contactMinutes * 60_000, section: section.name }];
  });
  return ends.filter((end) => end.at_ms > now_ms).sort((a, b) => b.at_ms - a.at_ms)[0] ?? null;
}
