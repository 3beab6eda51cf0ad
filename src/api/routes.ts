import type { z } from 'zod';
import { SignedHead } from '../log/tree/signed-head.js';
import type { ProblemCode } from './problems.js';
import * as wire from './wire.js';
import * as people from './wire-people.js';
import * as signing from './wire-sign-in.js';
import { Verified } from './wire-verified.js';

export interface Route {
  readonly method: 'GET' | 'POST' | 'PUT';
  /** `{name}` stands for a part of the address, read by `params`. */
  readonly path: string;
  readonly what: string;
  readonly query?: z.ZodType;
  readonly body?: z.ZodType;
  readonly params?: z.ZodType;
  /** The body is bytes of any media type, in place of JSON; what they are is judged by the bytes. */
  readonly bytes?: true;
  /** Status and shape of the answer when all is well; a text names the media type of an answer that is not JSON. */
  readonly answer: { readonly status: 200 | 201; readonly is: z.ZodType | string; readonly orElse?: string };
  readonly problems: readonly ProblemCode[];
}

const known = ['no-shelter-yet', 'records-damaged', 'person-missing', 'person-not-active', 'role-not-allowed'] as const;
const photoProblems = ['photo-unreadable', 'photo-too-large', 'from-another-site', 'store-full'] as const;

const trying = [
  'request-malformed',
  'from-another-site',
  'sign-in-waits',
  'device-revoked',
  'device-not-proven',
  'store-busy',
] as const;

/** Every route of the server, once: validation, client and openapi.json all come from here. */
export const routes = {
  health: {
    method: 'GET',
    path: '/api/health',
    what: 'Is the server there, and which version',
    answer: { status: 200, is: wire.Health },
    problems: [],
  },
  shelter: {
    method: 'GET',
    path: '/api/shelter',
    what: 'The shelter and how far its log has come, or that there is none yet',
    answer: { status: 200, is: wire.ShelterState },
    problems: ['records-damaged'],
  },
  setUp: {
    method: 'POST',
    path: '/api/shelter',
    what: 'Set up an own shelter; only while there is none',
    body: wire.SetUp,
    answer: { status: 201, is: wire.SetUpDone },
    problems: [...trying, 'shelter-exists', 'setup-needs-supervisor', 'code-wrong', 'secret-weak'],
  },
  setUpDemo: {
    method: 'POST',
    path: '/api/shelter/demo',
    what: 'Set up the invented shelter; only while there is none',
    body: wire.DemoAsked,
    answer: { status: 201, is: wire.ShelterReady },
    problems: ['request-malformed', 'from-another-site', 'shelter-exists', 'demo-not-offered'],
  },
  people: {
    method: 'GET',
    path: '/api/people',
    what: 'Names of who works there, never contacts: the whole list, to take the place of the one before',
    query: people.PeopleAsked,
    answer: { status: 200, is: people.PeopleList },
    problems: [...known, 'request-malformed'],
  },
  peopleInFull: {
    method: 'GET',
    path: '/api/people/full',
    what: 'Everybody of the private side with contacts, for the desk while it looks at them',
    answer: { status: 200, is: people.PeopleInFull },
    problems: known,
  },
  changePeople: {
    method: 'POST',
    path: '/api/people',
    what: 'Set names, licences and contacts of people, or withdraw their names from devices. No record is touched',
    body: people.ChangePeople,
    answer: { status: 200, is: people.PeopleChanged },
    problems: [...known, 'request-malformed', 'from-another-site', 'store-busy', 'store-full'],
  },
  erasePeople: {
    method: 'POST',
    path: '/api/people/erase',
    what: 'Erase all that the private side has about people, for good. No record is touched',
    body: people.ErasePeople,
    answer: { status: 200, is: people.PeopleErased },
    problems: [...known, 'request-malformed', 'from-another-site', 'person-at-work', 'store-busy'],
  },
  signIn: {
    method: 'POST',
    path: '/api/sign-in',
    what: 'Sign in by a password, or by a PIN on an enrolled device; the session is in a cookie that no script sees',
    body: signing.SignIn,
    answer: { status: 200, is: signing.SignedIn },
    problems: [...trying, 'no-shelter-yet', 'sign-in-wrong', 'device-not-enrolled'],
  },
  signInDemo: {
    method: 'POST',
    path: '/api/sign-in/demo',
    what: 'Sign in to the invented shelter with one tap, as anybody of it',
    body: signing.SignInDemo,
    answer: { status: 200, is: signing.SignedIn },
    problems: [...trying, 'no-shelter-yet', 'sign-in-wrong'],
  },
  signedIn: {
    method: 'GET',
    path: '/api/sign-in',
    what: 'Who is signed in on this device',
    answer: { status: 200, is: signing.SignedIn },
    problems: known,
  },
  signInByCode: {
    method: 'POST',
    path: '/api/sign-in/code',
    what: 'Set the first password or PIN by a one-time code, and sign in',
    body: signing.SignInByCode,
    answer: { status: 200, is: signing.SignedIn },
    problems: [...trying, 'no-shelter-yet', 'code-wrong', 'secret-weak', 'device-not-enrolled'],
  },
  firstAdministrator: {
    method: 'POST',
    path: '/api/sign-in/first',
    what: 'Become the first administrator by the code that the server printed at its start',
    body: signing.FirstAdministrator,
    answer: { status: 200, is: signing.SignedIn },
    problems: [...trying, 'no-shelter-yet', 'code-wrong', 'secret-weak', 'setup-needs-supervisor'],
  },
  confirm: {
    method: 'POST',
    path: '/api/sign-in/confirm',
    what: 'Give the own password once more: what takes a veterinarian may be signed for ten minutes then',
    body: signing.Confirm,
    answer: { status: 200, is: signing.SignedIn },
    problems: [...trying, ...known, 'sign-in-wrong'],
  },
  newSecret: {
    method: 'POST',
    path: '/api/sign-in/secret',
    what: 'Set another password or PIN of one’s own; all other sessions of this person end',
    body: signing.NewSecret,
    answer: { status: 200, is: signing.SignedIn },
    problems: [...trying, ...known, 'sign-in-wrong', 'secret-weak'],
  },
  signOut: {
    method: 'POST',
    path: '/api/sign-out',
    what: 'End the session of this device',
    answer: { status: 200, is: signing.SignedOut },
    problems: ['from-another-site'],
  },
  giveCode: {
    method: 'POST',
    path: '/api/people/code',
    what: 'Make a one-time code by which a person sets a password or PIN; administrators for anybody, the desk for those who are not of it',
    body: signing.CodeAsked,
    answer: { status: 200, is: signing.CodeGiven },
    problems: [...known, 'request-malformed', 'from-another-site', 'person-unknown'],
  },
  endSignIns: {
    method: 'POST',
    path: '/api/people/sign-out',
    what: 'End all sessions of a person, and take their passwords and PINs away',
    body: signing.CodeAsked,
    answer: { status: 200, is: signing.Done },
    problems: [...known, 'request-malformed', 'from-another-site', 'person-unknown'],
  },
  giveDuty: {
    method: 'POST',
    path: '/api/people/duty',
    what: 'Make somebody an administrator, or no longer; one stays',
    body: signing.Duty,
    answer: { status: 200, is: signing.Done },
    problems: [...known, 'request-malformed', 'from-another-site', 'person-unknown', 'last-administrator'],
  },
  setHome: {
    method: 'POST',
    path: '/api/people/animals',
    what: 'Say which animals are with a foster home: it writes about these alone',
    body: signing.Home,
    answer: { status: 200, is: signing.Done },
    problems: [...known, 'request-malformed', 'from-another-site', 'person-unknown'],
  },
  devices: {
    method: 'GET',
    path: '/api/devices',
    what: 'Every device that somebody signed in on, with its program and when it was last here',
    answer: { status: 200, is: signing.DeviceList },
    problems: known,
  },
  deviceCode: {
    method: 'POST',
    path: '/api/devices/code',
    what: 'Make a one-time code that enrols a device under a name',
    body: signing.DeviceCodeAsked,
    answer: { status: 200, is: signing.CodeGiven },
    problems: [...known, 'request-malformed', 'from-another-site'],
  },
  enrol: {
    method: 'POST',
    path: '/api/devices/enrol',
    what: 'Enrol this device by a one-time code',
    body: signing.Enrol,
    answer: { status: 200, is: signing.Enrolled },
    problems: [...trying, 'no-shelter-yet', 'code-wrong'],
  },
  nameDevice: {
    method: 'POST',
    path: '/api/devices/name',
    what: 'Give a device another name',
    body: signing.DeviceNamed,
    answer: { status: 200, is: signing.Done },
    problems: [...known, 'request-malformed', 'from-another-site', 'device-unknown'],
  },
  revokeDevice: {
    method: 'POST',
    path: '/api/devices/revoke',
    what: 'Revoke a device: its sessions end at once, and what it still brings is kept apart',
    body: signing.DeviceRevoked,
    answer: { status: 200, is: signing.Done },
    problems: [...known, 'request-malformed', 'from-another-site', 'device-unknown'],
  },
  apart: {
    method: 'GET',
    path: '/api/apart',
    what: 'Records that are kept apart until a person has judged them',
    answer: { status: 200, is: signing.ApartList },
    problems: known,
  },
  judgeApart: {
    method: 'POST',
    path: '/api/apart',
    what: 'Take records that were kept apart into the log, or not at all',
    body: signing.JudgeApart,
    answer: { status: 200, is: signing.Judged },
    problems: [...known, 'request-malformed', 'from-another-site', 'store-busy', 'store-full'],
  },
  append: {
    method: 'POST',
    path: '/api/records',
    what: 'Add records. Each is answered on its own; sending one again changes nothing',
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
    query: wire.RecordsAsked,
    answer: { status: 200, is: wire.RecordsPage },
    problems: [...known, 'request-malformed', 'another-history'],
  },
  animalRecords: {
    method: 'GET',
    path: '/api/animals/records',
    what: 'Every record of one animal, here or not',
    query: wire.AnimalRecordsAsked,
    answer: { status: 200, is: wire.AnimalRecords },
    problems: [...known, 'request-malformed', 'another-history'],
  },
  chips: {
    method: 'GET',
    path: '/api/chips',
    what: 'The index of every chip number ever recorded, or what of it is new after a place in the log',
    query: wire.ChipsAsked,
    answer: { status: 200, is: wire.ChipsPage },
    problems: [...known, 'request-malformed', 'another-history'],
  },
  lots: {
    method: 'GET',
    path: '/api/lots',
    what: 'What is left of every lot, by the records of all animals',
    answer: { status: 200, is: wire.LotsLeft },
    problems: known,
  },
  events: {
    method: 'GET',
    path: '/api/events',
    what: 'Server-sent events: `head` whenever the log has grown, and once at the start. Says nothing but how far',
    answer: { status: 200, is: 'text/event-stream' },
    problems: known,
  },
  due: {
    method: 'GET',
    path: '/api/due',
    what: 'What is due for whom on a day, as JSON or CSV',
    query: wire.DueAsked,
    answer: { status: 200, is: wire.DueList, orElse: 'text/csv' },
    problems: [...known, 'request-malformed', 'document-damaged'],
  },
  animals: {
    method: 'GET',
    path: '/api/animals',
    what: 'Animals in care, or all',
    query: wire.AnimalsAsked,
    answer: { status: 200, is: wire.AnimalList },
    problems: [...known, 'request-malformed'],
  },
  flags: {
    method: 'GET',
    path: '/api/flags',
    what: 'What a person has to look at',
    query: wire.FlagsAsked,
    answer: { status: 200, is: wire.FlagList },
    problems: [...known, 'request-malformed'],
  },
  takePhoto: {
    method: 'POST',
    path: '/api/photos',
    what: 'A photograph as it came from a camera; made upright, small and silent about its place, and kept as two pictures',
    bytes: true,
    answer: { status: 200, is: wire.PhotoKept },
    problems: [...known, ...photoProblems],
  },
  keepPicture: {
    method: 'PUT',
    path: '/api/photos/{id}',
    what: 'A picture that a device has made, under its SHA-256: a JPEG that holds nothing but the picture. Doing it again changes nothing',
    params: wire.PhotoNamed,
    bytes: true,
    answer: { status: 200, is: wire.PictureKept },
    problems: [...known, ...photoProblems, 'request-malformed', 'photo-not-plain'],
  },
  picture: {
    method: 'GET',
    path: '/api/photos/{id}',
    what: 'A picture by its SHA-256; it never changes',
    params: wire.PhotoNamed,
    answer: { status: 200, is: 'image/jpeg' },
    problems: [...known, 'request-malformed', 'photo-missing', 'photo-damaged'],
  },
  verify: {
    method: 'GET',
    path: '/api/verify',
    what: 'Follow the chain of hashes, rebuild the read tables and compare',
    answer: { status: 200, is: Verified },
    problems: known,
  },
  signedHead: {
    method: 'GET',
    path: '/api/head',
    what: 'How far the log has come as one hash over all its records (RFC 9162, 2.1), signed by the server (RFC 8032)',
    answer: { status: 200, is: SignedHead },
    problems: [...known, 'head-not-offered', 'head-not-signed'],
  },
  backup: {
    method: 'GET',
    path: '/api/backup',
    what: 'A copy of the records, made by their engine and verified, with the pictures that are whole: unpack it into an empty data folder. Names and contacts of people are not in it',
    answer: { status: 200, is: 'application/x-tar' },
    problems: [...known, 'backup-not-offered', 'backup-not-whole'],
  },
} as const satisfies Record<string, Route>;

export type RouteName = keyof typeof routes;

/** Request headers. Who asks is in a cookie that no script sees. */
export const headers = {
  now: 'x-roundhand-now',
  version: 'x-roundhand-version',
} as const;
