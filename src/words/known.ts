import { type NameHere, type Names, notKnownHere } from '../core/people.js';
import { namesHere, say } from './say.js';

/** Somebody with the name and licence by which they are known here; plain words for a name that is not. */
export const known = <P extends { readonly id: string }>(person: P, names: Names = namesHere()): P & NameHere => ({
  ...person,
  ...(names.get(person.id) ?? { name: say(notKnownHere), licence: '' }),
});

/** The same for a list, by name. */
export const allKnown = <P extends { readonly id: string }>(
  people: readonly P[],
  names: Names = namesHere(),
): (P & NameHere)[] =>
  people
    .map((person) => known(person, names))
    .sort((a, b) => a.name.localeCompare(b.name, 'en') || (a.id < b.id ? -1 : 1));
