import type { Asker } from '../api/routes.js';
import type { Person, Shelter } from '../log/views/shelter.js';
import { rolesInWords } from '../log/who-may.js';
import { type Refusal, refuse } from './refusal.js';

/**
 * Who is asking, and may they. The name in the header is taken at its word: on a shelter's own network every device is
 * handed from person to person. Signing in with a proof of who one is has still to come; until then the server must not
 * be reachable from outside (docs/known-gaps.md).
 */
export function identify(shelter: Shelter, asker: Asker, claimed: string | null): Person | null | Refusal {
  if (asker === 'anyone') return shelter.people.find((person) => person.id === claimed) ?? null;
  if (shelter.id === null) return refuse('no-shelter-yet');
  if (claimed === null) return refuse('person-missing');
  const person = shelter.people.find((one) => one.id === claimed);
  if (person === undefined) return refuse('person-unknown');
  if (!person.active) return refuse('person-not-active', { name: { person: person.id } });
  if (asker !== 'anybody-known' && !asker.includes(person.role)) {
    return refuse('role-not-allowed', { name: { person: person.id }, roles: rolesInWords(asker) });
  }
  return person;
}
