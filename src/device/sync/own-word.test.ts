import 'fake-indexeddb/auto';
import { v7 } from 'uuid';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { at, testLog } from '../../../test/support/log.js';
import type { Client } from '../../api/client.js';
import type { LogRecord } from '../../log/record.js';
import { type Db, openDb } from '../db.js';
import { type LocalStore, makeStore } from '../store/store.js';
import { pull } from './pull.js';
import { push } from './push.js';
import { pullingFor } from './sync.js';

const noon = at('2026-03-01', '12:00');
let made = 0;
let db: Db;
let store: LocalStore;

beforeEach(async () => {
  made += 1;
  db = openDb(`own-word-${made}`);
  store = makeStore({ db, now: () => noon, newId: v7 });
  await store.open();
});
afterEach(() => db.close());

const weighed = (grams: number): LogRecord =>
  testLog().one('animal-weighed', 'animal:one', { grams, entered: `${grams} g`, doubtful: false } as never, noon);

const kept = (record: LogRecord): LogRecord => ({ ...record, seq: 1, hash: 'h', receivedAt: noon });

/** A server that holds this record, and hears what is sent. */
const server = (record: LogRecord, heard: unknown[] = []): Client =>
  ({
    records: async () => ({
      ok: true,
      value: { records: [kept(record)], next: 1, left: [], head: { seq: 1, hash: 'h', receivedAt: noon } },
    }),
    animalRecords: async () => ({ ok: true, value: { records: [kept(record)], damaged: [], serverAt: noon } }),
    append: async (body: { records: unknown[] }) => {
      heard.push(...body.records);
      const outcomes = body.records.map((_, index) => ({ index, id: '', outcome: 'conflict', seq: 1, problem: null }));
      return { ok: true, value: { outcomes } };
    },
  }) as unknown as Client;

async function wroteDown(record: LogRecord): Promise<void> {
  await db.records.put(record);
  await db.outbox.put({ id: record.id, deviceSeq: record.deviceSeq, state: 'waiting', why: null });
}

test('the log’s record counts, the device’s own stays beside it and is what is sent again (Verifies: LOG-R4)', async () => {
  await wroteDown(weighed(620));
  await pull(db, server(weighed(260)), pullingFor(store, 'phone-a', 1));
  expect(await db.records.toArray()).toMatchObject([{ seq: 1, body: { grams: 260 } }]);
  expect(await db.outbox.toArray()).toMatchObject([{ own: { body: { grams: 620 } } }]);
  const heard: unknown[] = [];
  await push(db, server(weighed(260), heard));
  expect(heard).toMatchObject([{ body: { grams: 620 } }]);
  // Fetched anew from the first place on: the device's own word is still its own.
  await db.meta.put({ key: 'cursor', value: 0 });
  await pull(db, server(weighed(260)), pullingFor(store, 'phone-a', 1));
  expect(await db.outbox.toArray()).toMatchObject([{ state: 'turned-away', own: { body: { grams: 620 } } }]);
});

test('a record that comes back as it was sent is no second one', async () => {
  await wroteDown(weighed(620));
  await pull(db, server(weighed(620)), pullingFor(store, 'phone-a', 1));
  expect(await db.outbox.toArray()).toEqual([{ id: 'rec-00001', deviceSeq: 1, state: 'waiting', why: null }]);
});
