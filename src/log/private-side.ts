import { z } from 'zod';
import { derived } from '../core/derived.js';
import { PersonId } from '../core/ids.js';
import type { Names } from '../core/people.js';

/** A way to reach a person. Never sent to a device but that of the desk, while the desk looks at it. */
export const Contact = z.object({
  by: z.enum(['telephone', 'e-mail', 'post', 'other']),
  value: z.string().trim().min(1).max(300),
});
export type Contact = z.infer<typeof Contact>;

/**
 * Who a person is: what may be withheld and erased, and so is in no record. Staff, carers and adopters alike; records
 * carry the id and nothing else of it.
 */
export const PrivatePerson = z.object({
  id: PersonId,
  name: z.string().trim().min(1).max(120),
  /** Licence text of a veterinarian, empty for others. It says who somebody is, so it stands with the name. */
  licence: z.string().trim().max(120),
  contacts: z.array(Contact).max(20),
  /** True when devices are no longer given the name. */
  withdrawn: z.boolean(),
});
export type PrivatePerson = z.infer<typeof PrivatePerson>;

/** What is to be said anew about one person; what is left out stays as it is. Somebody new needs a name. */
export const PrivateChange = PrivatePerson.partial().required({ id: true });
export type PrivateChange = z.infer<typeof PrivateChange>;

/** As much of a person as a device may hold. */
export const GivenName = PrivatePerson.pick({ id: true, name: true, licence: true });
export type GivenName = z.infer<typeof GivenName>;

/**
 * `erased`: this person was erased, and what an old change says does not come back. `nameless`: nobody is known under
 * the id, and the change brings no name.
 */
export type Changed = 'kept' | 'erased' | 'nameless';

/**
 * The port to whatever keeps the private side: names and contacts of people, and later what they sign in with. The log
 * goes to every device and is never changed; this side goes to nobody whole, and what is erased here is gone.
 * test/contract/private-side.ts is the measure, as test/contract/store.ts is of a log.
 *
 * What every private side owes:
 * - Nothing of it is in the log or its read tables, and nothing here changes the log.
 * - When a promise of `change` or `erase` resolves, it survives loss of power.
 * - What has been erased or written over is nowhere in the files of this side any more; the id alone is kept, so that a
 *   device that was away for long does not bring the name back.
 * - Trouble outside the caller's reach rejects with a `StoreTrouble`; nothing is then half done.
 */
export interface PrivateSide {
  /** Keep changes, in this order; answers in the same order. Doing it again changes nothing. */
  change(changes: readonly PrivateChange[]): Promise<readonly Changed[]>;
  /** Everybody, by id in order of code points; the same list as long as nothing has changed. */
  people(): Promise<readonly PrivatePerson[]>;
  /** Remove everything about these people for good. Doing it again changes nothing. */
  erase(ids: readonly PersonId[]): Promise<void>;
  /** What the engine finds wrong with its own file; none when all is well. */
  faults(): Promise<readonly string[]>;
  close(): Promise<void>;
}

/** A person as a change leaves them; null when there is nobody and the change brings no name. Pure. */
export function changedBy(before: PrivatePerson | undefined, change: PrivateChange): PrivatePerson | null {
  const name = change.name ?? before?.name;
  if (name === undefined) return null;
  return {
    id: change.id,
    name,
    licence: change.licence ?? before?.licence ?? '',
    contacts: change.contacts ?? before?.contacts ?? [],
    withdrawn: change.withdrawn ?? before?.withdrawn ?? false,
  };
}

export const byId = (a: { readonly id: string }, b: { readonly id: string }): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0;

/** Whom devices, papers and answers call by name: everybody who is not withdrawn. */
export const namesGiven = derived(
  (people: readonly PrivatePerson[]): Names => namesIn(people.filter((one) => !one.withdrawn)),
);

/** Everybody's name and licence, to hold a signature against. */
export const signersOf = derived((people: readonly PrivatePerson[]): Names => namesIn(people));

const namesIn = (people: readonly PrivatePerson[]): Names =>
  new Map(people.map(({ id, name, licence }) => [id, { name, licence }]));
