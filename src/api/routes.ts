import type { z } from 'zod';
import type { Role } from '../core/people.js';
import { SignedHead } from '../log/tree/signed-head.js';
import type { ProblemCode } from './problems.js';
import * as wire from './wire.js';
import * as people from './wire-people.js';
import { Verified } from './wire-verified.js';

/** Who may ask. `anyone`: no person needed; `anybody-known`: an active person of the shelter; else one of these roles. */
export type Asker = 'anyone' | 'anybody-known' | readonly Role[];

export interface Route {
  readonly method: 'GET' | 'POST' | 'PUT';
  /** `{name}` stands for a part of the address, read by `params`. */
  readonly path: string;
  readonly what: string;
  readonly asker: Asker;
  readonly query?: z.ZodType;
  readonly body?: z.ZodType;
  readonly params?: z.ZodType;
  /** The body is bytes of any media type, in place of JSON; what they are is judged by the bytes. */
  readonly bytes?: true;
  /** Status and shape of the answer when all is well; a text names the media type of an answer that is not JSON. */
  readonly answer: { readonly status: 200 | 201; readonly is: z.ZodType | string; readonly orElse?: string };
  readonly problems: readonly ProblemCode[];
}

const desk: readonly Role[] = ['supervisor', 'medical'];
const known = ['no-shelter-yet', 'records-damaged', 'person-missing', 'person-unknown', 'person-not-active'] as const;
const photoProblems = ['photo-unreadable', 'photo-too-large', 'from-another-site', 'store-full'] as const;

/** Every route of the server, once: validation, client and openapi.json all come from here. */
export const routes = {
  health: {
    method: 'GET',
    path: '/api/health',
    what: 'Is the server there, and which version',
    asker: 'anyone',
    answer: { status: 200, is: wire.Health },
    problems: [],
  },
  shelter: {
    method: 'GET',
    path: '/api/shelter',
    what: 'The shelter and how far its log has come, or that there is none yet',
    asker: 'anyone',
    answer: { status: 200, is: wire.ShelterState },
    problems: ['records-damaged'],
  },
  setUp: {
    method: 'POST',
    path: '/api/shelter',
    what: 'Set up an own shelter; only while there is none',
    asker: 'anyone',
    body: wire.SetUp,
    answer: { status: 201, is: wire.SetUpDone },
    problems: ['request-malformed', 'from-another-site', 'shelter-exists', 'setup-needs-supervisor'],
  },
  setUpDemo: {
    method: 'POST',
    path: '/api/shelter/demo',
    what: 'Set up the invented shelter; only while there is none',
    asker: 'anyone',
    body: wire.DemoAsked,
    answer: { status: 201, is: wire.ShelterReady },
    problems: ['request-malformed', 'from-another-site', 'shelter-exists', 'demo-not-offered'],
  },
  people: {
    method: 'GET',
    path: '/api/people',
    what: 'Names of who works there, never contacts: the whole list, to take the place of the one before',
    // Whoever takes a device into their hands chooses their name before anything else can be asked.
    asker: 'anyone',
    query: people.PeopleAsked,
    answer: { status: 200, is: people.PeopleList },
    problems: ['request-malformed', 'records-damaged'],
  },
  peopleInFull: {
    method: 'GET',
    path: '/api/people/full',
    what: 'Everybody of the private side with contacts, for the desk while it looks at them',
    asker: desk,
    answer: { status: 200, is: people.PeopleInFull },
    problems: [...known, 'role-not-allowed'],
  },
  changePeople: {
    method: 'POST',
    path: '/api/people',
    what: 'Set names, licences and contacts of people, or withdraw their names from devices. No record is touched',
    asker: desk,
    body: people.ChangePeople,
    answer: { status: 200, is: people.PeopleChanged },
    problems: [...known, 'role-not-allowed', 'request-malformed', 'from-another-site', 'store-busy', 'store-full'],
  },
  erasePeople: {
    method: 'POST',
    path: '/api/people/erase',
    what: 'Erase all that the private side has about people, for good. No record is touched',
    asker: desk,
    body: people.ErasePeople,
    answer: { status: 200, is: people.PeopleErased },
    problems: [...known, 'role-not-allowed', 'request-malformed', 'from-another-site', 'person-at-work', 'store-busy'],
  },
  append: {
    method: 'POST',
    path: '/api/records',
    what: 'Add records. Each is answered on its own; sending one again changes nothing',
    asker: 'anybody-known',
    body: wire.Append,
    answer: { status: 200, is: wire.Appended },
    problems: [
      ...known,
      'request-malformed',
      'request-too-large',
      'from-another-site',
      'store-busy',
      'store-full',
      'store-too-large',
    ],
  },
  records: {
    method: 'GET',
    path: '/api/records',
    what: 'What a device holds: records after a place in the log, in order, without animals that left before',
    asker: 'anybody-known',
    query: wire.RecordsAsked,
    answer: { status: 200, is: wire.RecordsPage },
    problems: [...known, 'request-malformed', 'another-history'],
  },
  animalRecords: {
    method: 'GET',
    path: '/api/animals/records',
    what: 'Every record of one animal, here or not',
    asker: 'anybody-known',
    query: wire.AnimalRecordsAsked,
    answer: { status: 200, is: wire.AnimalRecords },
    problems: [...known, 'request-malformed', 'another-history'],
  },
  chips: {
    method: 'GET',
    path: '/api/chips',
    what: 'The index of every chip number ever recorded, or what of it is new after a place in the log',
    asker: 'anybody-known',
    query: wire.ChipsAsked,
    answer: { status: 200, is: wire.ChipsPage },
    problems: [...known, 'request-malformed', 'another-history'],
  },
  lots: {
    method: 'GET',
    path: '/api/lots',
    what: 'What is left of every lot, by the records of all animals',
    asker: 'anybody-known',
    answer: { status: 200, is: wire.LotsLeft },
    problems: known,
  },
  events: {
    method: 'GET',
    path: '/api/events',
    what: 'Server-sent events: `head` whenever the log has grown, and once at the start. Says nothing but how far',
    // The browser's EventSource sends no headers, so nobody can be asked for; a place in the log is no secret.
    asker: 'anyone',
    answer: { status: 200, is: 'text/event-stream' },
    problems: [],
  },
  due: {
    method: 'GET',
    path: '/api/due',
    what: 'What is due for whom on a day, as JSON or CSV',
    asker: 'anybody-known',
    query: wire.DueAsked,
    answer: { status: 200, is: wire.DueList, orElse: 'text/csv' },
    problems: [...known, 'request-malformed', 'document-damaged'],
  },
  animals: {
    method: 'GET',
    path: '/api/animals',
    what: 'Animals in care, or all',
    asker: 'anybody-known',
    query: wire.AnimalsAsked,
    answer: { status: 200, is: wire.AnimalList },
    problems: [...known, 'request-malformed'],
  },
  flags: {
    method: 'GET',
    path: '/api/flags',
    what: 'What a person has to look at',
    asker: 'anybody-known',
    query: wire.FlagsAsked,
    answer: { status: 200, is: wire.FlagList },
    problems: [...known, 'request-malformed'],
  },
  takePhoto: {
    method: 'POST',
    path: '/api/photos',
    what: 'A photograph as it came from a camera; made upright, small and silent about its place, and kept as two pictures',
    asker: 'anybody-known',
    bytes: true,
    answer: { status: 200, is: wire.PhotoKept },
    problems: [...known, ...photoProblems],
  },
  keepPicture: {
    method: 'PUT',
    path: '/api/photos/{id}',
    what: 'A picture that a device has made, under its SHA-256: a JPEG that holds nothing but the picture. Doing it again changes nothing',
    asker: 'anybody-known',
    params: wire.PhotoNamed,
    bytes: true,
    answer: { status: 200, is: wire.PictureKept },
    problems: [...known, ...photoProblems, 'request-malformed', 'photo-not-plain'],
  },
  picture: {
    method: 'GET',
    path: '/api/photos/{id}',
    what: 'A picture by its SHA-256; it never changes',
    asker: 'anybody-known',
    params: wire.PhotoNamed,
    answer: { status: 200, is: 'image/jpeg' },
    problems: [...known, 'request-malformed', 'photo-missing', 'photo-damaged'],
  },
  verify: {
    method: 'GET',
    path: '/api/verify',
    what: 'Follow the chain of hashes, rebuild the read tables and compare',
    asker: desk,
    answer: { status: 200, is: Verified },
    problems: [...known, 'role-not-allowed'],
  },
  signedHead: {
    method: 'GET',
    path: '/api/head',
    what: 'How far the log has come as one hash over all its records (RFC 9162, 2.1), signed by the server (RFC 8032)',
    asker: 'anybody-known',
    answer: { status: 200, is: SignedHead },
    problems: [...known, 'head-not-offered', 'head-not-signed'],
  },
  backup: {
    method: 'GET',
    path: '/api/backup',
    what: 'A copy of the records, made by their engine and verified, with the pictures that are whole: unpack it into an empty data folder. Names and contacts of people are not in it',
    asker: desk,
    answer: { status: 200, is: 'application/x-tar' },
    problems: [...known, 'role-not-allowed', 'backup-not-offered', 'backup-not-whole'],
  },
} as const satisfies Record<string, Route>;

export type RouteName = keyof typeof routes;

/** Request headers. The person is taken at their word for now: real sign-in is still to come (docs/known-gaps.md). */
export const headers = {
  person: 'x-roundhand-person',
  now: 'x-roundhand-now',
} as const;
