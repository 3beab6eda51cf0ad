import 'fake-indexeddb/auto';
import type { FastifyInstance } from 'fastify';
import { v7 } from 'uuid';
import { afterEach, describe, expect, it } from 'vitest';
import type { Fetch } from '../../src/api/client.js';
import { AnimalId, PersonId } from '../../src/core/ids.js';
import { chanceFrom } from '../../src/core/round/plan/chance.js';
import { weighAnimal } from '../../src/log/commands/animal.js';
import type { LogRecord } from '../../src/log/record.js';
import type { KeptEnvelope, LogStore } from '../../src/log/store.js';
import { createApp } from '../../src/server/app.js';
import { memoryStore } from '../../src/store/memory/store.js';
import { verifyStore } from '../../src/store/verify.js';
import { type Db, openDb, readCursor } from '../../src/web/store/db.js';
import { type LocalStore, makeStore } from '../../src/web/store/store.js';
import { makeSync, type Sync } from '../../src/web/sync/sync.js';
import { at } from '../support/log.js';
import { shelterLog } from '../support/shelter-log.js';

const noon = at('2026-03-02', '12:00');
let made = 0;
const toClose: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of toClose.splice(0).reverse()) await close();
});

/** A server whose records can be put back from a copy, on a line that can be cut before or after it has answered. */
function house() {
  let store: LogStore = memoryStore();
  let app: FastifyInstance | null = null;
  /** Whether the next exchange is cut, and on which side of the server's work. */
  let cut: () => 'whole' | 'before' | 'after' = () => 'whole';
  const start = async (): Promise<void> => {
    await app?.close();
    app = await createApp({ store, clock: () => noon, version: '9.9.9' });
  };
  toClose.push(() => app?.close());
  const line: Fetch = async (url, { method, headers, body }) => {
    const how = cut();
    if (how === 'before' || app === null) throw new Error('no network');
    const payload = body === undefined ? {} : { payload: typeof body === 'string' ? body : Buffer.from(body) };
    const answer = await app.inject({ method: method as 'GET', url, headers, ...payload });
    if (how === 'after') throw new Error('the answer was lost');
    const arrayBuffer = async () => Uint8Array.from(answer.rawPayload).buffer;
    return { status: answer.statusCode, text: async () => answer.body, arrayBuffer };
  };
  return {
    line,
    store: () => store,
    start,
    cutBy: (how: typeof cut) => {
      cut = how;
    },
    copy: () => store.read(),
    putBack: async (copy: readonly KeptEnvelope[]): Promise<void> => {
      store = memoryStore();
      // As the copy holds them: the same places, times of arrival and hashes.
      for (const { receivedAt, seq: _seq, hash: _hash, ...record } of copy)
        await store.append([record as LogRecord], receivedAt);
      await start();
    },
  };
}

interface Device {
  readonly db: Db;
  readonly store: LocalStore;
  readonly sync: Sync;
}

async function device(line: Fetch, person: string): Promise<Device> {
  made += 1;
  const db = openDb(`one-history-${made}`);
  const store = makeStore({ db, now: () => noon, newId: v7 });
  toClose.push(() => db.close());
  await store.open();
  await store.chooseWho({ person: PersonId.parse(person), partner: null });
  const sync = makeSync(store, () => noon, line);
  toClose.push(sync.stop);
  return { db, store, sync };
}

async function weigh({ store }: Device, kit: number, grams: number): Promise<string> {
  const drafts = weighAnimal(AnimalId.parse(`kit-${kit}`), { grams, entered: `${grams} g` }, noon);
  const saved = await store.append(drafts);
  if (!saved.ok) throw new Error(JSON.stringify(saved.why));
  return String(saved.value[0]?.id);
}

const idsOf = (records: readonly { readonly id: string; readonly hash?: string }[]) =>
  records.map(({ id, hash }) => `${id} ${hash}`).sort();

/** Until nobody has anything to send or to fetch: what one sends the next one fetches, and some go back first. */
async function settle(devices: readonly Device[], store: () => LogStore): Promise<void> {
  const moving = async (): Promise<number> => {
    for (const { sync } of devices) await sync.once();
    const { seq, hash } = await store().head();
    const still = await Promise.all(
      devices.map(async ({ db }) => {
        const at = await readCursor(db);
        return at.place === seq && at.hash === hash && (await db.outbox.count()) === 0;
      }),
    );
    return still.filter((one) => !one).length;
  };
  await expect.poll(moving).toBe(0);
}

/** Every device holds exactly what the server holds, at the same places, and nothing waits. */
async function expectOneState(devices: readonly Device[], store: LogStore): Promise<readonly KeptEnvelope[]> {
  const there = await store.read();
  for (const { db } of devices) {
    expect(idsOf(await db.records.toArray())).toEqual(idsOf(there));
    expect(await db.outbox.toArray()).toEqual([]);
    expect(await readCursor(db)).toEqual({ place: there.length, hash: there.at(-1)?.hash });
  }
  expect((await verifyStore(store)).whole).toBe(true);
  return there;
}

describe('records put back from an older copy', () => {
  it('are met after they have grown past the place of a phone: nothing is lost and the desk is told (Verifies: LOG-R30)', async () => {
    const { line, store, start, copy, putBack } = house();
    await store().append(shelterLog(3).records, noon);
    await start();
    const [phone, desk] = [await device(line, 'ines'), await device(line, 'sol')];
    await settle([phone, desk], store);
    const older = await copy();
    const lost = [await weigh(phone, 1, 610), await weigh(phone, 2, 620)];
    await phone.sync.once();

    await putBack(older);
    // The desk goes on first: the log is now longer than the phone has read.
    for (let i = 0; i < 5; i += 1) await weigh(desk, 3, 700 + i);
    await desk.sync.once();
    expect((await store().head()).seq).toBeGreaterThan((await readCursor(phone.db)).place);

    await settle([phone, desk], store);
    const there = await expectOneState([phone, desk], store());
    expect(there.map(({ id }) => id)).toEqual(expect.arrayContaining(lost));
    expect(await store().rows('flags', { code: 'put-back' })).toHaveLength(1);
  });

  it('give one state and lose nothing for ten devices on a line that is cut (Verifies: LOG-R30)', async () => {
    const { line, store, start, copy, putBack, cutBy } = house();
    await store().append(shelterLog(6).records, noon);
    await start();
    const devices: Device[] = [];
    for (let i = 0; i < 10; i += 1) devices.push(await device(line, ['ines', 'sol', 'vera'][i % 3] ?? 'sol'));
    await settle(devices, store);
    const chance = chanceFrom(20261128);
    const one = <T>(all: readonly T[]): T => all[Math.floor(chance.next() * all.length)] as T;
    const written: string[] = [];
    const work = async (turns: number): Promise<void> => {
      for (let turn = 0; turn < turns; turn += 1) {
        written.push(await weigh(one(devices), 1 + Math.floor(chance.next() * 6), 400 + turn));
        if (chance.next() < 0.6) await one(devices).sync.once();
      }
    };
    cutBy(() => (chance.next() < 0.3 ? one(['before', 'after'] as const) : 'whole'));
    await work(20);
    const older = await copy();
    await work(30);
    await putBack(older);
    await work(30);
    await putBack((await copy()).slice(0, older.length + 3));
    await work(15);

    cutBy(() => 'whole');
    await settle(devices, store);
    const there = await expectOneState(devices, store());
    expect(there.map(({ id }) => id)).toEqual(expect.arrayContaining(written));
    expect((await store().rows('flags', { code: 'put-back' })).length).toBeGreaterThan(0);
  });
});
