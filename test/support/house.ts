import 'fake-indexeddb/auto';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { v7 } from 'uuid';
import { afterEach, expect } from 'vitest';
import type { Fetch } from '../../src/api/client.js';
import { type AnimalId, PersonId } from '../../src/core/ids.js';
import { type Db, openDb, readCursor } from '../../src/device/db.js';
import { type LocalStore, makeStore } from '../../src/device/store/store.js';
import { makeSync, type Sync } from '../../src/device/sync/sync.js';
import { isAnimalRecord, type LogRecord, subjectOf } from '../../src/log/record.js';
import { lotUse } from '../../src/log/stock/lots.js';
import type { KeptEnvelope, LogStore } from '../../src/log/store.js';
import { createApp } from '../../src/server/app.js';
import { heldIn } from '../../src/store/held.js';
import { memorySignIns } from '../../src/store/private/sign-ins.js';
import { openStore, type SqliteStore, storeFile } from '../../src/store/sqlite/open.js';
import { verifyStore } from '../../src/store/verify.js';
import { at } from './log.js';
import { signedInOn, wasSignedIn } from './signed-in.js';

/** What people sign in with, of all houses of a file: a device is known wherever it comes. */
const signIns = memorySignIns();

export const noon = at('2026-03-02', '12:00');
let made = 0;
const toClose: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of toClose.splice(0).reverse()) await close();
});

/** A file of records that the server's own way of copying has made. */
export type Copy = string;

/** A server over a real store, whose records can be put back from a copy, on a line that can be cut on either side of an answer. */
export async function house(records: readonly LogRecord[]) {
  const folder = mkdtempSync(join(tmpdir(), 'roundhand-house-'));
  toClose.push(() => rmSync(folder, { recursive: true, force: true }));
  let copies = 0;
  let app: FastifyInstance | null = null;
  /** Whether the next exchange is cut, and on which side of the server's work. */
  let cut: () => 'whole' | 'before' | 'after' = () => 'whole';
  const asked: string[] = [];
  const open = async (where: string): Promise<SqliteStore> => {
    const opened = await openStore(join(folder, where));
    if (!opened.ok) throw new Error(JSON.stringify(opened.why));
    return opened.value;
  };
  let store = await open('first');
  await store.append(records, noon);
  for (const { by, writtenBy, device: on } of records) wasSignedIn(signIns, writtenBy ?? by, on);
  const start = async (): Promise<void> => {
    app = await createApp({ store, signIns, clock: () => noon, version: '9.9.9' });
  };
  await start();
  toClose.push(async () => {
    await app?.close();
    await store.close();
  });
  const line: Fetch = async (url, { method, headers, body }) => {
    const how = cut();
    if (how === 'before' || app === null) throw new Error('no network');
    asked.push(url);
    const payload = body === undefined ? {} : { payload: typeof body === 'string' ? body : Buffer.from(body) };
    const answer = await app.inject({ method: method as 'GET', url, headers, ...payload });
    if (how === 'after') throw new Error('the answer was lost');
    const arrayBuffer = async () => Uint8Array.from(answer.rawPayload).buffer;
    return { status: answer.statusCode, text: async () => answer.body, arrayBuffer };
  };
  return {
    line,
    /** Addresses that were asked for, in order. */
    asked,
    store: (): LogStore => store,
    cutBy: (how: typeof cut) => {
      cut = how;
    },
    copy: async (): Promise<Copy> => {
      copies += 1;
      const file = join(folder, `copy-${copies}`);
      await store.backUp(file);
      return file;
    },
    putBack: async (copy: Copy): Promise<void> => {
      await app?.close();
      await store.close();
      copies += 1;
      mkdirSync(join(folder, `again-${copies}`));
      copyFileSync(copy, join(folder, `again-${copies}`, storeFile));
      store = await open(`again-${copies}`);
      await start();
    },
  };
}

export interface Device {
  readonly db: Db;
  readonly store: LocalStore;
  readonly sync: Sync;
}

export async function device(line: Fetch, person: string, now = (): string => noon): Promise<Device> {
  made += 1;
  const db = openDb(`device-${made}`);
  const store = makeStore({ db, now, newId: v7 });
  toClose.push(() => db.close());
  await store.open();
  await store.chooseWho({ person: PersonId.parse(person), partner: null });
  const sync = makeSync(store, now, signedInOn(signIns, store, line, now));
  toClose.push(sync.stop);
  return { db, store, sync };
}

/** The same device after its page was loaded again. */
export async function loadedAgain({ db, sync }: Device, line: Fetch, now = (): string => noon): Promise<Device> {
  sync.stop();
  const store = makeStore({ db, now, newId: v7 });
  await store.open();
  const again = makeSync(store, now, signedInOn(signIns, store, line, now));
  toClose.push(again.stop);
  return { db, store, sync: again };
}

/** Write something down on a device; the ids of what was kept. */
export async function write(
  { store }: Device,
  ...drafts: Parameters<LocalStore['append']>[0]
): Promise<readonly string[]> {
  const saved = await store.append(drafts);
  if (!saved.ok) throw new Error(JSON.stringify(saved.why));
  return saved.value.map(({ id }) => id);
}

/** Until nobody has anything to send or to fetch: what one sends the next one fetches, and some go back first. */
export async function settle(devices: readonly Device[], store: () => LogStore): Promise<void> {
  const moving = async (): Promise<number> => {
    for (const { sync } of devices) await sync.once();
    const { seq, hash } = await store().head();
    const still = await Promise.all(
      devices.map(async ({ db }) => {
        const place = await readCursor(db);
        return place.place === seq && place.hash === hash && (await db.outbox.count()) === 0;
      }),
    );
    return still.filter((one) => !one).length;
  };
  await expect.poll(moving).toBe(0);
}

const idsOf = (records: Iterable<Pick<LogRecord, 'id' | 'hash'>>) =>
  [...records].map(({ id, hash }) => `${id} ${hash}`).sort();

/** Every device holds exactly what there is to hold, at the same places, works with it, and nothing waits. */
export async function expectOneState(devices: readonly Device[], store: LogStore): Promise<readonly KeptEnvelope[]> {
  const there = await store.read();
  const left = new Set((await store.rows('animals')).filter((row) => row.left_on !== null).map((row) => row.animal));
  const nobody = { after: 0, since: there.length, limit: there.length + 1 };
  const { records: held } = heldIn(there, (animal) => left.has(animal), nobody);
  const numbers = await store.rows('chip_numbers');
  const lots = (await store.rows('lots')).map(({ lot, pieces_left }) => [lot, pieces_left]);
  for (const { db, store: own } of devices) {
    const aside = new Set(await db.aside.toCollection().primaryKeys());
    const kept = (await db.records.toArray()).filter(({ subject }) => !aside.has(subject));
    expect(idsOf(kept)).toEqual(idsOf(held));
    const world = own.world.get();
    expect(idsOf([...world.bySubject.values()].flat())).toEqual(idsOf(held));
    expect(await db.outbox.toArray()).toEqual([]);
    expect(await readCursor(db)).toEqual({ place: there.length, hash: there.at(-1)?.hash });
    const known = [...world.chips.byAnimal.values()].flatMap((one) =>
      one.numbers.map(({ code }) => [code, one.animal]),
    );
    expect([...lotUse(world)].map(([lot, { left: rest }]) => [lot, rest]).sort()).toEqual(lots.sort());
    expect(known.sort()).toEqual(numbers.map(({ code, animal }) => [code, animal]).sort());
  }
  expect((await verifyStore(store)).whole).toBe(true);
  return there;
}

/** Animals whose records a device works with. */
export const animalsOn = ({ store }: Device): string[] => {
  const records = [...store.world.get().bySubject.values()].flat().filter(isAnimalRecord);
  return [...new Set(records.map((record) => subjectOf(record).id as AnimalId))].sort();
};
