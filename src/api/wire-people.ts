import { z } from 'zod';
import { PersonId } from '../core/ids.js';
import { GivenName, PrivateChange, PrivatePerson } from '../log/private-side.js';
import { limits } from './wire.js';

/** A query so that a device that has the list already is not sent it again. */
export const PeopleAsked = z.object({
  have: z.string().max(64).optional().describe('`tag` of the list the asker has'),
});
export const PeopleList = z
  .object({
    tag: z.string().describe('Names this list: another one when anything in it is another'),
    people: z.array(GivenName).nullable().describe('Who works there, whole, to take the place of what the asker has'),
  })
  .meta({ id: 'PeopleList' });
export type PeopleList = z.infer<typeof PeopleList>;
export const PeopleInFull = z.object({ people: z.array(PrivatePerson) }).meta({ id: 'PeopleInFull' });
export const ChangePeople = z
  .object({ changes: z.array(PrivateChange).min(1).max(limits.batch) })
  .meta({ id: 'ChangePeople' });
export const PeopleChanged = z
  .object({ outcomes: z.array(z.enum(['kept', 'erased', 'nameless'])).describe('In the order of what was asked') })
  .meta({ id: 'PeopleChanged' });
export const ErasePeople = z.object({ ids: z.array(PersonId).min(1).max(limits.batch) }).meta({ id: 'ErasePeople' });
export const PeopleErased = z.object({ erased: z.number().int() }).meta({ id: 'PeopleErased' });
