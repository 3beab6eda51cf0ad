import { SignedHead } from '../log/tree/signed-head.js';
import type { Route } from './route.js';
import * as wire from './wire.js';
import * as people from './wire-people.js';
import { Verified } from './wire-verified.js';

/** What a device asks while people work on it: it carries these along from its first page on. */
export const carriedRoutes = {
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
