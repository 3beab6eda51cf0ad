import Dexie, { type Table } from 'dexie';
import type { BlobId } from '../core/animal/photo.js';
import type { PersonId, RecordId } from '../core/ids.js';
import type { Said } from '../core/said.js';
import type { ChipEntry } from '../log/chip-index.js';
import type { GivenName, PrivateChange } from '../log/private-side.js';
import type { Envelope, LogRecord } from '../log/record.js';
import { type UnreadRecord, unreadOf } from '../log/unread.js';

/** One record that has not been seen in the server's log yet. */
export interface Unsent {
  readonly id: string;
  readonly deviceSeq: number;
  /**
   * `turned-away`: the server will not have it; it stays here until a person deals with it. `sent`: the server has said
   * that it keeps it, but it has not come back from there yet; until it has, a copy put back could have lost it.
   */
  readonly state: 'waiting' | 'sent' | 'turned-away';
  readonly why: Said | null;
  /** Where it stood in a log that has lost it; such records go first and in that order. Left out: it was never there. */
  readonly stood?: number;
  /** This device's own record, when the log holds another one under the same id: that one counts, this one stays here. */
  readonly own?: LogRecord;
}

/** How far the server's log has been read: the place, and the hash there, which names the history up to it. */
export interface Cursor {
  readonly place: number;
  readonly hash: string;
}
export const logStart: Cursor = { place: 0, hash: '' };

/**
 * A record from the server that this version of the program cannot read; kept, so that an update can. Or, under the id
 * that `damagedAt` gives, what the server could still tell of one that is damaged in its log.
 */
export interface Unread {
  readonly id: string;
  readonly raw: unknown;
}

const damagedPlaces = 'damaged:';
export const damagedAt = (seq: number): string => `${damagedPlaces}${seq}`;
export const countDamaged = (db: Db): Promise<number> => db.unread.where('id').startsWith(damagedPlaces).count();

/** What can be told of the records that cannot be read here, in the order of the log. */
export async function unreadIn(db: Db): Promise<UnreadRecord[]> {
  const rows = await db.unread.toArray();
  return rows
    .map(({ raw }) => unreadOf(typeof raw === 'object' && raw !== null ? raw : {}))
    .sort((a, b) => (a.seq ?? Number.POSITIVE_INFINITY) - (b.seq ?? Number.POSITIVE_INFINITY));
}

/** Records of this device by their ids, those that it cannot read too. */
export async function findHere(db: Db, ids: readonly RecordId[]): Promise<readonly Envelope[]> {
  const [records, unread] = await Promise.all([db.records.bulkGet([...ids]), db.unread.bulkGet([...ids])]);
  // What lies in `unread` under the id of a record came as an envelope whose body alone could not be read.
  return [...records, ...unread.map((row) => row?.raw as Envelope | undefined)].filter((one) => one !== undefined);
}

/**
 * An animal that left, or whose history was only fetched to be looked at: its records lie here, whole as of an instant,
 * and are not kept up to date. They are no part of what the device works out until somebody opens the animal.
 */
export interface Aside {
  readonly subject: string;
  readonly at: string;
}

/** A picture on this device: one that it has made, or a small one fetched for the time without the network. */
export interface HeldPicture {
  readonly id: BlobId;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /**
   * `drafted`: made here, and no record names it yet. `waiting`: one does, and the server does not have it.
   * `turned-away`: the server will not have it. `there`: the server has it.
   */
  readonly state: 'drafted' | 'waiting' | 'turned-away' | 'there';
  readonly why: Said | null;
  /** UTC ISO text. */
  readonly heldAt: string;
}

/** A change of the private side that was made on this device and has not reached the server. One for each person. */
export interface WaitingChange {
  readonly id: PersonId;
  readonly change: PrivateChange;
  /** Who made it: it is sent in this name, whoever holds the device by then. */
  readonly by: PersonId;
  /** Counts the changes made to it, so that one made while it was being sent is not taken for sent. */
  readonly made: number;
  /** Why the server will not have it; null while it waits. */
  readonly why: Said | null;
}

interface Meta {
  readonly key: string;
  readonly value: unknown;
}

/** The device's own database. Records and what is unsent are written in one transaction or not at all. */
export type Db = Dexie & {
  readonly records: Table<LogRecord, string>;
  readonly outbox: Table<Unsent, string>;
  readonly unread: Table<Unread, string>;
  readonly pictures: Table<HeldPicture, BlobId>;
  readonly meta: Table<Meta, string>;
  readonly aside: Table<Aside, string>;
  /** The index of all chips ever recorded, by animal. */
  readonly chips: Table<ChipEntry, string>;
  /** Names of people as the server gave them, replaced whole; never contacts. */
  readonly names: Table<GivenName, string>;
  /** Changes of the private side that wait for the server. */
  readonly changes: Table<WaitingChange, string>;
};

export function openDb(name: string): Db {
  const db = new Dexie(name) as Db;
  db.version(1).stores({
    records: 'id, subject',
    outbox: 'id, deviceSeq',
    unread: 'id',
    pictures: 'id, state',
    meta: 'key',
    aside: 'subject',
    chips: 'animal',
    names: 'id',
    changes: 'id',
  });
  return db;
}

/** True when a newer version of the program has changed the shape of the database: this one must not write into it. */
export const isOfNewerProgram = (db: Db): boolean => Math.floor(db.backendDB().version / 10) > db.verno;

/**
 * Another tab wants the database for a newer version of the program, or has thrown it away. It is let go and never
 * opened again from here, else this tab would write on into what it does not know.
 */
export function onTakenAway(db: Db, tell: (how: 'newer' | 'deleted') => void): void {
  db.on('versionchange', (event) => {
    db.close({ disableAutoOpen: true });
    tell(event.newVersion === null || event.newVersion === 0 ? 'deleted' : 'newer');
    // Nothing after this: by default it would be opened again at the next write.
    return false;
  });
}

export async function readMeta(db: Db, key: string): Promise<unknown> {
  return (await db.meta.get(key))?.value;
}

export const readCursor = (db: Db): Promise<Cursor> => readPlace(db, 'cursor');

/** How far something has been read: the log itself (`cursor`), or the index of all chips. */
export async function readPlace(db: Db, key: 'cursor' | 'chips'): Promise<Cursor> {
  const kept = await readMeta(db, key);
  return isCursor(kept) ? kept : logStart;
}

const isCursor = (value: unknown): value is Cursor =>
  typeof value === 'object' && value !== null && 'place' in value && 'hash' in value;

export const writeMeta = (db: Db, key: string, value: unknown): Promise<string> => db.meta.put({ key, value });

/** Raised when the device's database has not answered in time; the transaction has been given up by then. */
export class TooSlow extends Error {}

/**
 * Run work in one transaction that ends, saved or failed, within `limit_ms`: near the quota some browsers never call
 * back, and a person must not wait for a save that will not come.
 */
export async function withinTime<T>(db: Db, limit_ms: number, work: () => Promise<T>): Promise<T> {
  let giveUp = (): void => undefined;
  const saved = db.transaction('rw', db.records, db.outbox, db.meta, db.unread, db.pictures, async (transaction) => {
    giveUp = () => transaction.abort();
    return work();
  });
  const { promise: late, reject } = deferred();
  const timer = setTimeout(() => {
    giveUp();
    reject(new TooSlow(`no answer from the device's database within ${limit_ms} ms`));
  }, limit_ms);
  // When time runs out the transaction's own failure has nobody left to hear it.
  saved.catch(() => undefined);
  try {
    return await Promise.race([saved, late]);
  } finally {
    clearTimeout(timer);
  }
}

function deferred(): { promise: Promise<never>; reject: (why: Error) => void } {
  let reject: (why: Error) => void = () => undefined;
  const promise = new Promise<never>((_, fail) => {
    reject = fail;
  });
  return { promise, reject };
}
