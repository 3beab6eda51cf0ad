import { type Said, said } from '../../core/said.js';
import { type Shelter, sectionOf } from './shelter.js';

/** Section and kennel as people say them. */
export function placeSaid(shelter: Pick<Shelter, 'sections'>, section: string | null, kennel: string): Said {
  const found = sectionOf(shelter, section);
  if (found === null) return said(kennel === '' ? 'desk.place.none' : 'desk.place.kennel', { kennel });
  return kennel === ''
    ? said('desk.place.section', { section: found.name })
    : said('desk.place.both', { section: found.name, kennel });
}
