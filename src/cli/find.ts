import { plainForm } from '../core/intake/compare.js';
import type { KnownPerson, Section, Shelter } from '../log/views/shelter.js';
import { allKnown } from '../words/known.js';
import { type Exit, misused } from './exit.js';

const isCalled = (one: { readonly id: string; readonly name: string }, text: string): boolean =>
  one.id === text || plainForm(one.name) === plainForm(text);

/** A section by its id or its name. */
export function sectionCalled(shelter: Shelter, text: string): Section | Exit {
  const found = shelter.sections.find((section) => isCalled(section, text));
  const names = shelter.sections.map((section) => section.name);
  return found ?? misused('cli.no-such-section', { section: text, sections: { list: names } });
}

/** An active person by id or name. */
export function personCalled(shelter: Shelter, text: string): KnownPerson | Exit {
  const active = allKnown(shelter.people.filter((person) => person.active));
  const found = active.filter((person) => isCalled(person, text));
  const [only] = found;
  if (only !== undefined && found.length === 1) return only;
  const names = { list: active.map((person) => person.name) };
  return misused(found.length > 1 ? 'cli.person-twice' : 'cli.no-such-person', { person: text, people: names });
}
