import type { Photo } from '../core/animal/photo.js';
import type { CalendarDate } from '../core/calendar.js';
import type { Names } from '../core/people.js';
import { type Said, said } from '../core/said.js';
import type { Demo } from '../demo/make-demo.js';
import { type Arrival, arrivalAt } from '../log/arrival.js';
import type { Blobs } from '../log/blobs.js';
import { span } from '../log/flags/clock-flags.js';
import type { PrivateSide } from '../log/private-side.js';
import type { Draft } from '../log/record.js';
import type { Head, LogStore } from '../log/store.js';
import type { Shelter } from '../log/views/shelter.js';
import type { SignIns } from '../store/private/sign-ins.js';
import type { Heads } from '../store/tree-heads.js';
import { english } from '../words/english.js';
import { languages } from '../words/languages.js';
import { type Say, sayFor } from '../words/say.js';

import { type CopiesState, copyFailed } from './copies/keep-copies.js';
import type { Looked } from './rolling-check.js';
import type { WhoAsks } from './sign-in/who-asks.js';

/** Makes the invented shelter as of a day: its records, and who its people are. */
export type MakeDemo = (at: {
  today: CalendarDate;
  now: string;
  /** In which `now` is on `today`. */
  zone: string;
  seed: number;
  photos: Readonly<Record<string, Photo>>;
}) => Demo;

/** What the routes work with. The clock, chance and the store are brought in from outside, so that a test can hold them. */
export interface Context {
  readonly store: LogStore;
  /** The pictures beside the log. */
  readonly blobs: Blobs;
  /** Names and contacts of people, beside the log. */
  readonly people: PrivateSide;
  /** What people sign in with, and where they are signed in. */
  readonly signIns: SignIns;
  /** Prints a code on the console of the server, for whoever stands there. */
  readonly printCode: (code: string) => void;
  /** Copies the store to a file, when this kind of store can. */
  readonly backUp: ((to: string) => Promise<void>) | null;
  /** Signs how far the log has come; null when this kind of store has nowhere to keep heads. */
  readonly heads: Heads | null;
  /** How it stands with the copies in a second place; null when none are asked for. */
  readonly copies: () => CopiesState | null;
  /** The server's clock, UTC ISO text. */
  readonly clock: () => string;
  /** A new UUIDv7. */
  readonly newId: () => string;
  readonly version: string;
  /** Names by which this server may be asked, besides addresses and names of the local network. */
  readonly names: readonly string[];
  /** Zone of this computer: the day of the invented shelter before it has a zone of its own. */
  readonly zone: string;
  readonly demo: MakeDemo | null;
  /** What a new shelter starts with (protocol and formulary as drafts, to be signed). */
  readonly starter: (at: string) => readonly Draft[];
  readonly shelter: () => Promise<Shelter>;
  /** How many of the records that are listed from cannot be read: the shelter's and those of animals in care. */
  readonly unreadable: () => Promise<number>;
  readonly grown: Grown;
  /** Says on the console what is wrong, each thing when it is first seen. */
  readonly complain: (faults: readonly Said[]) => void;
  /** What the look at the start found. */
  readonly inForce: readonly Said[];
  /** When the records were last looked through; null before the first time. */
  readonly looked: () => Looked | null;
}

/** What everybody has to know of the state of the records, one sentence each: on the console and on every page. */
export async function toldToAll(
  context: Pick<Context, 'inForce' | 'looked' | 'store' | 'clock' | 'copies'>,
): Promise<readonly Said[]> {
  const { inForce, looked, copies } = context;
  const { failed = null, last = null } = copies() ?? {};
  const found = [
    ...clockTold(await arrivalNow(context)),
    ...inForce,
    ...(looked()?.faults ?? []),
    ...(failed === null ? [] : [copyFailed(failed, last)]),
  ];
  const told = found.slice(0, mostTold);
  return found.length > told.length
    ? [...told, said('server.verify.more', { count: found.length - told.length })]
    : told;
}

/** Now, as something that came in would count: by the server's clock, but never before what has come in. */
export const arrivalNow = async ({ store, clock }: Pick<Context, 'store' | 'clock'>): Promise<Arrival> =>
  arrivalAt(clock(), (await store.head()).receivedAt);

/** What is said when the server's clock lies behind its own log. */
export const clockTold = ({ receivedAt, serverBehind_ms }: Arrival): readonly Said[] =>
  serverBehind_ms === undefined
    ? []
    : [said('server.clock-back', { behind: span(serverBehind_ms), at: { instant: receivedAt } })];

/** More would fill the page of a phone. */
const mostTold = 5;

/** One request, with who asks already made out. */
export interface Asked<Query, Body, Params = undefined> {
  readonly query: Query;
  readonly body: Body;
  readonly params: Params;
  readonly who: WhoAsks;
  readonly shelter: Shelter;
  readonly say: Say;
  readonly deviceNow: string | null;
  /** Address on the network that asks; wrong tries are counted by it too. */
  readonly from: string;
  readonly setCookie: (cookie: 'session' | 'device', value: string | null) => void;
}

/** Who wants to know when the log has grown. */
export interface Grown {
  readonly tell: (head: Head) => void;
  readonly listen: (listener: (head: Head) => void) => () => void;
}

export function grown(): Grown {
  const listeners = new Set<(head: Head) => void>();
  return {
    tell: (head) => {
      for (const listener of listeners) listener(head);
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Speaks to one asker: in the first language of the list they can read that there is, in the shelter's zone, by these names. */
export function sayTo(acceptLanguage: string | undefined, zone: string, names: Names): Say {
  const wanted = (acceptLanguage ?? '').split(',').map((part) => part.trim().slice(0, 2).toLowerCase());
  const tag = wanted.find((one) => Object.hasOwn(languages, one));
  return sayFor({ language: (tag === undefined ? undefined : languages[tag]) ?? english, zone, names });
}
