import type { z } from 'zod';
import { SignedHead } from '../log/tree/signed-head.js';
import * as wire from './wire.js';
import * as people from './wire-people.js';
import * as signing from './wire-sign-in.js';
import { Verified } from './wire-verified.js';

export interface Route {
  readonly method: 'GET' | 'POST' | 'PUT';
  /** `{name}` stands for a part of the address, read by `params`. */
  readonly path: string;
  readonly query?: z.ZodType;
  readonly body?: z.ZodType;
  readonly params?: z.ZodType;
  /** The body is bytes of any media type, in place of JSON; what they are is judged by the bytes. */
  readonly bytes?: true;
  /** Status and shape of the answer when all is well; a text names the media type of an answer that is not JSON. */
  readonly answer: { readonly status: 200 | 201; readonly is: z.ZodType | string; readonly orElse?: string };
}

/** Every route of the server, once: validation, client and openapi.json all come from here. */
export const routes = {
  health: {
    method: 'GET',
    path: '/api/health',
    answer: { status: 200, is: wire.Health },
  },
  shelter: {
    method: 'GET',
    path: '/api/shelter',
    answer: { status: 200, is: wire.ShelterState },
  },
  setUp: {
    method: 'POST',
    path: '/api/shelter',
    body: wire.SetUp,
    answer: { status: 201, is: wire.SetUpDone },
  },
  setUpDemo: {
    method: 'POST',
    path: '/api/shelter/demo',
    body: wire.DemoAsked,
    answer: { status: 201, is: wire.ShelterReady },
  },
  people: {
    method: 'GET',
    path: '/api/people',
    query: people.PeopleAsked,
    answer: { status: 200, is: people.PeopleList },
  },
  peopleInFull: {
    method: 'GET',
    path: '/api/people/full',
    answer: { status: 200, is: people.PeopleInFull },
  },
  changePeople: {
    method: 'POST',
    path: '/api/people',
    body: people.ChangePeople,
    answer: { status: 200, is: people.PeopleChanged },
  },
  erasePeople: {
    method: 'POST',
    path: '/api/people/erase',
    body: people.ErasePeople,
    answer: { status: 200, is: people.PeopleErased },
  },
  signIn: {
    method: 'POST',
    path: '/api/sign-in',
    body: signing.SignIn,
    answer: { status: 200, is: signing.SignedIn },
  },
  signInDemo: {
    method: 'POST',
    path: '/api/sign-in/demo',
    body: signing.SignInDemo,
    answer: { status: 200, is: signing.SignedIn },
  },
  signedIn: {
    method: 'GET',
    path: '/api/sign-in',
    answer: { status: 200, is: signing.SignedIn },
  },
  signInByCode: {
    method: 'POST',
    path: '/api/sign-in/code',
    body: signing.SignInByCode,
    answer: { status: 200, is: signing.SignedIn },
  },
  firstAdministrator: {
    method: 'POST',
    path: '/api/sign-in/first',
    body: signing.FirstAdministrator,
    answer: { status: 200, is: signing.SignedIn },
  },
  confirm: {
    method: 'POST',
    path: '/api/sign-in/confirm',
    body: signing.Confirm,
    answer: { status: 200, is: signing.SignedIn },
  },
  newSecret: {
    method: 'POST',
    path: '/api/sign-in/secret',
    body: signing.NewSecret,
    answer: { status: 200, is: signing.SignedIn },
  },
  signOut: {
    method: 'POST',
    path: '/api/sign-out',
    answer: { status: 200, is: signing.SignedOut },
  },
  giveCode: {
    method: 'POST',
    path: '/api/people/code',
    body: signing.CodeAsked,
    answer: { status: 200, is: signing.CodeGiven },
  },
  endSignIns: {
    method: 'POST',
    path: '/api/people/sign-out',
    body: signing.CodeAsked,
    answer: { status: 200, is: signing.Done },
  },
  giveDuty: {
    method: 'POST',
    path: '/api/people/duty',
    body: signing.Duty,
    answer: { status: 200, is: signing.Done },
  },
  setHome: {
    method: 'POST',
    path: '/api/people/animals',
    body: signing.Home,
    answer: { status: 200, is: signing.Done },
  },
  devices: {
    method: 'GET',
    path: '/api/devices',
    answer: { status: 200, is: signing.DeviceList },
  },
  deviceCode: {
    method: 'POST',
    path: '/api/devices/code',
    body: signing.DeviceCodeAsked,
    answer: { status: 200, is: signing.CodeGiven },
  },
  enrol: {
    method: 'POST',
    path: '/api/devices/enrol',
    body: signing.Enrol,
    answer: { status: 200, is: signing.Enrolled },
  },
  nameDevice: {
    method: 'POST',
    path: '/api/devices/name',
    body: signing.DeviceNamed,
    answer: { status: 200, is: signing.Done },
  },
  revokeDevice: {
    method: 'POST',
    path: '/api/devices/revoke',
    body: signing.DeviceRevoked,
    answer: { status: 200, is: signing.Done },
  },
  apart: {
    method: 'GET',
    path: '/api/apart',
    answer: { status: 200, is: signing.ApartList },
  },
  judgeApart: {
    method: 'POST',
    path: '/api/apart',
    body: signing.JudgeApart,
    answer: { status: 200, is: signing.Judged },
  },
  append: {
    method: 'POST',
    path: '/api/records',
    body: wire.Append,
    answer: { status: 200, is: wire.Appended },
  },
  records: {
    method: 'GET',
    path: '/api/records',
    query: wire.RecordsAsked,
    answer: { status: 200, is: wire.RecordsPage },
  },
  animalRecords: {
    method: 'GET',
    path: '/api/animals/records',
    query: wire.AnimalRecordsAsked,
    answer: { status: 200, is: wire.AnimalRecords },
  },
  chips: {
    method: 'GET',
    path: '/api/chips',
    query: wire.ChipsAsked,
    answer: { status: 200, is: wire.ChipsPage },
  },
  lots: {
    method: 'GET',
    path: '/api/lots',
    answer: { status: 200, is: wire.LotsLeft },
  },
  events: {
    method: 'GET',
    path: '/api/events',
    answer: { status: 200, is: 'text/event-stream' },
  },
  due: {
    method: 'GET',
    path: '/api/due',
    query: wire.DueAsked,
    answer: { status: 200, is: wire.DueList, orElse: 'text/csv' },
  },
  animals: {
    method: 'GET',
    path: '/api/animals',
    query: wire.AnimalsAsked,
    answer: { status: 200, is: wire.AnimalList },
  },
  flags: {
    method: 'GET',
    path: '/api/flags',
    query: wire.FlagsAsked,
    answer: { status: 200, is: wire.FlagList },
  },
  takePhoto: {
    method: 'POST',
    path: '/api/photos',
    bytes: true,
    answer: { status: 200, is: wire.PhotoKept },
  },
  keepPicture: {
    method: 'PUT',
    path: '/api/photos/{id}',
    params: wire.PhotoNamed,
    bytes: true,
    answer: { status: 200, is: wire.PictureKept },
  },
  picture: {
    method: 'GET',
    path: '/api/photos/{id}',
    params: wire.PhotoNamed,
    answer: { status: 200, is: 'image/jpeg' },
  },
  verify: {
    method: 'GET',
    path: '/api/verify',
    answer: { status: 200, is: Verified },
  },
  signedHead: {
    method: 'GET',
    path: '/api/head',
    answer: { status: 200, is: SignedHead },
  },
  backup: {
    method: 'GET',
    path: '/api/backup',
    answer: { status: 200, is: 'application/x-tar' },
  },
} as const satisfies Record<string, Route>;

export type RouteName = keyof typeof routes;

/** Request headers. Who asks is in a cookie that no script sees. */
export const headers = {
  now: 'x-roundhand-now',
  version: 'x-roundhand-version',
} as const;
