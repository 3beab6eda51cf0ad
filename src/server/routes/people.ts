import type { z } from 'zod';
import type {
  ChangePeople,
  ErasePeople,
  PeopleAsked,
  PeopleChanged,
  PeopleErased,
  PeopleInFull,
  PeopleList,
} from '../../api/wire-people.js';
import { derived } from '../../core/derived.js';
import { canonical } from '../../log/canonical.js';
import { hashOfText } from '../../log/hash.js';
import type { GivenName, PrivatePerson } from '../../log/private-side.js';
import type { Shelter } from '../../log/views/shelter.js';
import type { Asked, Context } from '../context.js';
import { type Refusal, refuse } from '../refusal.js';

/** Names of who works there: of those on the private side who are in the records as people, and are not withdrawn. */
export async function peopleList(
  context: Context,
  { query, shelter }: Asked<z.output<typeof PeopleAsked>, undefined>,
): Promise<PeopleList> {
  const given = listFor(await context.people.people(), shelter.people);
  return given.tag === query.have ? { tag: given.tag, people: null } : { ...given, people: [...given.people] };
}

const listFor = derived(
  (all: readonly PrivatePerson[], working: Shelter['people']): { tag: string; people: readonly GivenName[] } => {
    const here = new Set(working.map(({ id }) => id));
    const people = all
      .filter(({ id, withdrawn }) => here.has(id) && !withdrawn)
      .map(({ id, name, licence }) => ({ id, name, licence }));
    return { tag: hashOfText(canonical(people)), people };
  },
);

export const peopleInFull = async ({ people }: Context): Promise<z.output<typeof PeopleInFull>> => ({
  people: [...(await people.people())],
});

export const changePeople = async (
  { people }: Context,
  { changes }: z.output<typeof ChangePeople>,
): Promise<z.output<typeof PeopleChanged>> => ({ outcomes: [...(await people.change(changes))] });

/** Whoever still works there is not erased by a slip: they are taken off the list of those at work first. */
export async function erasePeople(
  { people, signIns }: Context,
  { body: { ids }, shelter }: Asked<undefined, z.output<typeof ErasePeople>>,
): Promise<z.output<typeof PeopleErased> | Refusal> {
  const working = shelter.people.find(({ id, active }) => active && ids.includes(id));
  if (working !== undefined) return refuse('person-at-work', { name: { person: working.id } });
  await people.erase(ids);
  for (const id of ids) signIns.forget(id);
  return { erased: ids.length };
}
