import type { ProblemCode } from './problems.js';
import type { RouteName } from './routes.js';

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

/** What a route is for and what it can answer instead: for the server and its description; no device carries it along. */
export const routesTold: Readonly<
  Record<RouteName, { readonly what: string; readonly problems: readonly ProblemCode[] }>
> = {
  health: {
    what: 'Is the server there, and which version',
    problems: [],
  },
  shelter: {
    what: 'The shelter and how far its log has come, or that there is none yet',
    problems: ['records-damaged'],
  },
  setUp: {
    what: 'Set up an own shelter; only while there is none',
    problems: [...trying, 'shelter-exists', 'setup-needs-supervisor', 'code-wrong', 'secret-weak'],
  },
  setUpDemo: {
    what: 'Set up the invented shelter; only while there is none',
    problems: ['request-malformed', 'from-another-site', 'shelter-exists', 'demo-not-offered'],
  },
  people: {
    what: 'Names of who works there, never contacts: the whole list, to take the place of the one before',
    problems: [...known, 'request-malformed'],
  },
  peopleInFull: {
    what: 'Everybody of the private side with contacts, for the desk while it looks at them',
    problems: known,
  },
  changePeople: {
    what: 'Set names, licences and contacts of people, or withdraw their names from devices. No record is touched',
    problems: [...known, 'request-malformed', 'from-another-site', 'store-busy', 'store-full'],
  },
  erasePeople: {
    what: 'Erase all that the private side has about people, for good. No record is touched',
    problems: [
      ...known,
      'request-malformed',
      'from-another-site',
      'person-at-work',
      'last-administrator',
      'store-busy',
    ],
  },
  signIn: {
    what: 'Sign in by a password, or by a PIN on an enrolled device; the session is in a cookie that no script sees',
    problems: [...trying, 'no-shelter-yet', 'sign-in-wrong', 'device-not-enrolled'],
  },
  signInDemo: {
    what: 'Sign in to the invented shelter with one tap, as anybody of it',
    problems: [...trying, 'no-shelter-yet', 'sign-in-wrong'],
  },
  signedIn: {
    what: 'Who is signed in on this device',
    problems: known,
  },
  signInByCode: {
    what: 'Set the first password or PIN by a one-time code, and sign in',
    problems: [...trying, 'no-shelter-yet', 'code-wrong', 'secret-weak', 'device-not-enrolled'],
  },
  firstAdministrator: {
    what: 'Become the first administrator by the code that the server printed at its start',
    problems: [...trying, 'no-shelter-yet', 'code-wrong', 'secret-weak', 'setup-needs-supervisor'],
  },
  confirm: {
    what: 'Give the own password once more: what takes a veterinarian may be signed for ten minutes then',
    problems: [...trying, ...known, 'sign-in-wrong'],
  },
  newSecret: {
    what: 'Set another password or PIN of one’s own; all other sessions of this person end',
    problems: [...trying, ...known, 'sign-in-wrong', 'secret-weak'],
  },
  signOut: {
    what: 'End the session of this device',
    problems: ['from-another-site'],
  },
  giveCode: {
    what: 'Make a one-time code by which a person sets a password or PIN; administrators for anybody, the desk for those who are not of it',
    problems: [...known, 'request-malformed', 'from-another-site', 'person-unknown'],
  },
  endSignIns: {
    what: 'End all sessions of a person, and take their passwords and PINs away',
    problems: [...known, 'request-malformed', 'from-another-site', 'person-unknown'],
  },
  giveDuty: {
    what: 'Make somebody an administrator, or no longer; one stays',
    problems: [...known, 'request-malformed', 'from-another-site', 'person-unknown', 'last-administrator'],
  },
  setHome: {
    what: 'Say which animals are with a foster home: it writes about these alone',
    problems: [...known, 'request-malformed', 'from-another-site', 'person-unknown'],
  },
  devices: {
    what: 'Every device that somebody signed in on, with its program and when it was last here',
    problems: known,
  },
  deviceCode: {
    what: 'Make a one-time code that enrols a device under a name',
    problems: [...known, 'request-malformed', 'from-another-site'],
  },
  enrol: {
    what: 'Enrol this device by a one-time code',
    problems: [...trying, 'no-shelter-yet', 'code-wrong'],
  },
  nameDevice: {
    what: 'Give a device another name',
    problems: [...known, 'request-malformed', 'from-another-site', 'device-unknown'],
  },
  revokeDevice: {
    what: 'Revoke a device: its sessions end at once, and what it still brings is kept apart',
    problems: [...known, 'request-malformed', 'from-another-site', 'device-unknown'],
  },
  apart: {
    what: 'Records that are kept apart until a person has judged them',
    problems: known,
  },
  judgeApart: {
    what: 'Take records that were kept apart into the log, or not at all',
    problems: [...known, 'request-malformed', 'from-another-site', 'store-busy', 'store-full'],
  },
  append: {
    what: 'Add records. Each is answered on its own; sending one again changes nothing',
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
    what: 'What a device holds: records after a place in the log, in order, without animals that left before',
    problems: [...known, 'request-malformed', 'another-history'],
  },
  animalRecords: {
    what: 'Every record of one animal, here or not',
    problems: [...known, 'request-malformed', 'another-history'],
  },
  chips: {
    what: 'The index of every chip number ever recorded, or what of it is new after a place in the log',
    problems: [...known, 'request-malformed', 'another-history'],
  },
  lots: {
    what: 'What is left of every lot, by the records of all animals',
    problems: known,
  },
  events: {
    what: 'Server-sent events: `head` whenever the log has grown, and once at the start. Says nothing but how far',
    problems: known,
  },
  due: {
    what: 'What is due for whom on a day, as JSON or CSV',
    problems: [...known, 'request-malformed', 'document-damaged'],
  },
  animals: {
    what: 'Animals in care, or all',
    problems: [...known, 'request-malformed'],
  },
  flags: {
    what: 'What a person has to look at',
    problems: [...known, 'request-malformed'],
  },
  takePhoto: {
    what: 'A photograph as it came from a camera; made upright, small and silent about its place, and kept as two pictures',
    problems: [...known, ...photoProblems],
  },
  keepPicture: {
    what: 'A picture that a device has made, under its SHA-256: a JPEG that holds nothing but the picture. Doing it again changes nothing',
    problems: [...known, ...photoProblems, 'request-malformed', 'photo-not-plain'],
  },
  picture: {
    what: 'A picture by its SHA-256; it never changes',
    problems: [...known, 'request-malformed', 'photo-missing', 'photo-damaged'],
  },
  verify: {
    what: 'Follow the chain of hashes, rebuild the read tables and compare',
    problems: known,
  },
  signedHead: {
    what: 'How far the log has come as one hash over all its records (RFC 9162, 2.1), signed by the server (RFC 8032)',
    problems: [...known, 'head-not-offered', 'head-not-signed'],
  },
  backup: {
    what: 'A copy of the records, made by their engine and verified, with the pictures that are whole: unpack it into an empty data folder. Names and contacts of people are not in it',
    problems: [...known, 'backup-not-offered', 'backup-not-whole'],
  },
};
