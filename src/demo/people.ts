import type { DeviceId, PersonId } from '../core/ids.js';
import type { Role } from '../core/people.js';
import { describePerson } from '../log/commands/shelter.js';
import type { PrivatePerson } from '../log/private-side.js';
import type { Draft } from '../log/record.js';

export type PersonKey = 'ada' | 'petra' | 'rosa' | 'jonas' | 'mina' | 'tove' | 'idris' | 'greta';

interface CastPerson {
  readonly key: PersonKey;
  readonly name: string;
  readonly role: Role;
  readonly licence: string;
}

/** Everybody who works in the invented shelter. None of them exists; the licence says so. */
export const castPeople: readonly CastPerson[] = [
  { key: 'ada', name: 'Ada Quill', role: 'supervisor', licence: '' },
  { key: 'petra', name: 'Dr Petra Vellum', role: 'medical', licence: 'INVENTED-0001 (demo, not a real licence)' },
  { key: 'rosa', name: 'Rosa Pounce', role: 'medical', licence: '' },
  { key: 'jonas', name: 'Jonas Blotter', role: 'volunteer', licence: '' },
  { key: 'mina', name: 'Mina Folio', role: 'volunteer', licence: '' },
  { key: 'tove', name: 'Tove Margin', role: 'volunteer', licence: '' },
  { key: 'idris', name: 'Idris Nibley', role: 'volunteer', licence: '' },
  { key: 'greta', name: 'Greta Parchment', role: 'caregiver', licence: '' },
];

export type People = Readonly<Record<PersonKey, PersonId>>;

export const personDrafts = (people: People, at: string): Draft[] =>
  castPeople.flatMap(({ key, role }) => describePerson({ person: people[key], role, active: true }, at));

/** Who they are, for the private side; the ways to reach them lead nowhere (RFC 2606). */
export const privatePeople = (people: People): PrivatePerson[] =>
  castPeople.map(({ key, name, licence }) => ({
    id: people[key],
    name,
    licence,
    contacts: [{ by: 'e-mail', value: `${key}@inkwell-lane.example` }],
    withdrawn: false,
  }));

/** The devices of the shelter: one at the desk, two that go on rounds, one at a foster carer's. */
export interface Devices {
  readonly desk: DeviceId;
  readonly phoneA: DeviceId;
  readonly phoneB: DeviceId;
  readonly carer: DeviceId;
}

/** Two pairs that take turns on the clean sections, and one for the sick ones. */
export const pairs: readonly (readonly [PersonKey, PersonKey])[] = [
  ['mina', 'jonas'],
  ['tove', 'idris'],
  ['jonas', 'tove'],
];
export const sickPair: readonly [PersonKey, PersonKey] = ['rosa', 'idris'];
