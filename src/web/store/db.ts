import Dexie, { type Table } from 'dexie';
import type { Said } from '../../core/said.js';
import type { LogRecord } from '../../log/record.js';

/** One record that has not reached the server yet. */
export interface Unsent {
  readonly id: string;
  readonly deviceSeq: number;
  /** `turned-away`: the server will not have it; it stays here until a person deals with it. */
  readonly state: 'waiting' | 'turned-away';
  readonly why: Said | null;
}

/** A record from the server that this version of the program cannot read; kept, so that an update can. */
export interface Unread {
  readonly id: string;
  readonly raw: unknown;
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
  readonly meta: Table<Meta, string>;
};

export function openDb(name: string): Db {
  const db = new Dexie(name) as Db;
  db.version(1).stores({ records: 'id, subject', outbox: 'id, deviceSeq', unread: 'id', meta: 'key' });
  return db;
}

export async function readMeta(db: Db, key: string): Promise<unknown> {
  return (await db.meta.get(key))?.value;
}

export const writeMeta = (db: Db, key: string, value: unknown): Promise<string> => db.meta.put({ key, value });

/** Raised when the device's database has not answered in time; the transaction has been given up by then. */
export class TooSlow extends Error {}

/**
 * Run work in one transaction that ends, saved or failed, within `limit_ms`: near the quota some browsers never call
 * back, and a person must not wait for a save that will not come.
 */
export async function withinTime<T>(db: Db, limit_ms: number, work: () => Promise<T>): Promise<T> {
  let giveUp = (): void => undefined;
  const saved = db.transaction('rw', db.records, db.outbox, db.meta, db.unread, async (transaction) => {
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
