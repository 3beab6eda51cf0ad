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
import { rolesInWords } from '../../log/who-may.js';
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

/**
 * A licence makes a veterinarian of somebody of the medical team, who then signs and orders: who says that there is one is an
 * administrator, and not whoever runs the desk, of themselves above all. It is taken off by all of the desk. In the invented
 * shelter nobody is an administrator.
 */
export async function changePeople(
  { people }: Context,
  { body: { changes }, shelter, who }: Asked<undefined, z.output<typeof ChangePeople>>,
): Promise<z.output<typeof PeopleChanged> | Refusal> {
  const licences = new Map((await people.people()).map(({ id, licence }) => [id, licence]));
  const gives = changes.some(
    ({ id, licence = '' }) => licence.trim() !== '' && licence.trim() !== (licences.get(id) ?? '').trim(),
  );
  if (gives && !shelter.demo && !who.has.includes('administrator')) {
    const roles = rolesInWords(['administrator']);
    return refuse('role-not-allowed', { name: { person: who.person?.id ?? '' }, roles });
  }
  return { outcomes: [...(await people.change(changes))] };
}

/**
 * Whoever still works there is not erased by a slip: they are taken off the list of those at work first. Who looks after
 * sign-ins is erased by another who does, and the last of them by nobody.
 */
export async function erasePeople(
  { people, signIns }: Context,
  { body: { ids }, shelter, who }: Asked<undefined, z.output<typeof ErasePeople>>,
): Promise<z.output<typeof PeopleErased> | Refusal> {
  const working = shelter.people.find(({ id, active }) => active && ids.includes(id));
  if (working !== undefined) return refuse('person-at-work', { name: { person: working.id } });
  const looksAfter = ids.find((id) => signIns.administers(id));
  if (looksAfter !== undefined && !shelter.demo) {
    if (!who.has.includes('administrator')) {
      return refuse('role-not-allowed', {
        name: { person: who.person?.id ?? '' },
        roles: rolesInWords(['administrator']),
      });
    }
    if (signIns.administrators().every((id) => ids.includes(id))) return refuse('last-administrator');
  }
  await people.erase(ids);
  for (const id of ids) signIns.forget(id);
  return { erased: ids.length };
}
