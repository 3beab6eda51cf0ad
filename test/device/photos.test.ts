import 'fake-indexeddb/auto';
import { createHash } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import sharp from 'sharp';
import { v7 } from 'uuid';
import { afterEach, describe, expect, it } from 'vitest';
import type { Fetch } from '../../src/api/client.js';
import type { Photo } from '../../src/core/animal/photo.js';
import { AnimalId, PersonId } from '../../src/core/ids.js';
import { type Db, openDb } from '../../src/device/db.js';
import { holdPhoto } from '../../src/device/photos/held.js';
import { type MadePhoto, named } from '../../src/device/photos/make.js';
import { type LocalStore, makeStore } from '../../src/device/store/store.js';
import { makeSync, type Sync } from '../../src/device/sync/sync.js';
import type { Blobs } from '../../src/log/blobs.js';
import { describeAnimal, letLeave } from '../../src/log/commands/animal.js';
import type { LogRecord } from '../../src/log/record.js';
import type { LogStore } from '../../src/log/store.js';
import { createApp } from '../../src/server/app.js';
import { takePhoto } from '../../src/server/photo/take-photo.js';
import { isRefusal } from '../../src/server/refusal.js';
import { memoryBlobs } from '../../src/store/blobs/memory.js';
import { memoryStore } from '../../src/store/memory/store.js';
import { memorySignIns } from '../../src/store/private/sign-ins.js';
import { verifyPictures } from '../../src/store/verify-pictures.js';
import { at, day } from '../support/log.js';
import { shelterLog } from '../support/shelter-log.js';
import { signedInOn } from '../support/signed-in.js';

const noon = at('2026-03-02', '12:00');
const kit = AnimalId.parse('kit-1');
let made = 0;
const toClose: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of toClose.splice(0).reverse()) await close();
});

const signIns = memorySignIns();

/** A server on a line that can be cut for everything or for pictures only; what it keeps can be exchanged for a copy. */
async function house() {
  const line = { cut: 'no' as 'no' | 'all' | 'pictures', sent: [] as string[] };
  const kept: { log: LogStore; blobs: Blobs } = { log: memoryStore(), blobs: memoryBlobs() };
  await kept.log.append(shelterLog(3).records, noon);
  let app: FastifyInstance | null = null;
  const start = async (log: LogStore, blobs: Blobs): Promise<void> => {
    await app?.close();
    Object.assign(kept, { log, blobs });
    app = await createApp({ store: log, blobs, signIns, clock: () => noon, version: '9.9.9' });
  };
  await start(kept.log, kept.blobs);
  toClose.push(() => app?.close());
  const fetch: Fetch = async (url, { method, headers, body }) => {
    const isPicture = url.startsWith('/api/photos');
    if (app === null || line.cut === 'all' || (line.cut === 'pictures' && isPicture)) throw new Error('no network');
    if (method !== 'GET') line.sent.push(`${method} ${url.slice(0, 12)}`);
    const payload = body === undefined ? {} : { payload: typeof body === 'string' ? body : Buffer.from(body) };
    const answer = await app.inject({ method: method as 'GET', url, headers, ...payload });
    const arrayBuffer = async () => Uint8Array.from(answer.rawPayload).buffer;
    return { status: answer.statusCode, text: async () => answer.body, arrayBuffer };
  };
  return { line, kept, start, fetch };
}

interface Device {
  readonly db: Db;
  readonly store: LocalStore;
  readonly sync: Sync;
}

async function device(fetch: Fetch): Promise<Device> {
  made += 1;
  const db = openDb(`photos-${made}`);
  const store = makeStore({ db, now: () => noon, newId: v7 });
  toClose.push(() => db.close());
  await store.open();
  await store.chooseWho({ person: PersonId.parse('sol'), partner: null });
  const sync = makeSync(
    store,
    () => noon,
    signedInOn(signIns, store, fetch, () => noon),
  );
  toClose.push(sync.stop);
  return { db, store, sync };
}

/** As a device makes one; the canvas that draws it is a browser's, so the server's own way stands in for it here. */
async function photoOf(colour: string): Promise<MadePhoto> {
  const camera = await sharp({ create: { width: 2000, height: 1000, channels: 3, background: colour } })
    .jpeg()
    .toBuffer();
  const pictures = await takePhoto(camera);
  if (isRefusal(pictures)) throw new Error(pictures.why.say);
  const [full, small] = [named(pictures.full), named(pictures.small)];
  if (full === null || small === null) throw new Error('no JPEG');
  return { full, small };
}

async function hold({ db }: Device, photo: MadePhoto): Promise<Photo> {
  const held = await holdPhoto(db, photo, noon);
  if (!held.ok) throw new Error(JSON.stringify(held.why));
  return held.value;
}

async function describeWith({ store }: Device, photo: Photo | null, collar = 'teal'): Promise<readonly LogRecord[]> {
  const marks = { collar, coat: 'tabby', mark: '', photo };
  const saved = await store.append(describeAnimal(kit, { marks }, noon));
  if (!saved.ok) throw new Error(JSON.stringify(saved.why));
  return saved.value;
}

const states = async ({ db }: Device) => (await db.pictures.toArray()).map(({ state }) => state).sort();

describe('a photo taken without the network', () => {
  it('is named in the record at once, and goes to the server when it is back (Verifies: LOG-R95)', async () => {
    const { line, kept, fetch } = await house();
    const [phone, desk] = [await device(fetch), await device(fetch)];
    await phone.sync.once();
    line.cut = 'all';
    const photo = await hold(phone, await photoOf('#204060'));
    expect(await states(phone)).toEqual(['drafted', 'drafted']);
    await describeWith(phone, photo);
    expect(await states(phone)).toEqual(['waiting', 'waiting']);
    await phone.sync.once();
    expect(phone.store.status.get()).toMatchObject({ unsent: 1, pictures: { waiting: 2, notTaken: 0 } });

    // The record goes through although no picture does.
    line.cut = 'pictures';
    await phone.sync.once();
    expect(await phone.db.outbox.count()).toBe(0);
    await desk.sync.once();
    expect(desk.store.world.get().animals.get(kit)?.marks.photo).toEqual(photo);
    expect(await verifyPictures(kept.log, kept.blobs)).toMatchObject({ missing: [photo.full, photo.small].sort() });

    line.cut = 'no';
    line.sent.length = 0;
    await expect.poll(() => phone.sync.once().then(() => states(phone))).toEqual(['there', 'there']);
    expect(await kept.blobs.list()).toEqual([photo.full, photo.small].sort());
    expect(line.sent).toEqual(['PUT /api/photos/', 'PUT /api/photos/']);
    // Another device fetches the small one for the time without the network, and looks that it is this one.
    await expect
      .poll(() => desk.sync.once().then(() => desk.db.pictures.toCollection().primaryKeys()))
      .toEqual([photo.small]);
    const [held] = await desk.db.pictures.toArray();
    expect(
      createHash('sha256')
        .update(held?.bytes ?? '')
        .digest('hex'),
    ).toBe(photo.small);
    expect(await verifyPictures(kept.log, kept.blobs)).toMatchObject({ missing: [], damaged: [], unreferenced: [] });
  });

  it('stays on the device when no record names it, and a second word sends no picture again', async () => {
    const { line, kept, fetch } = await house();
    const phone = await device(fetch);
    await phone.sync.once();
    await hold(phone, await photoOf('#111111'));
    const photo = await hold(phone, await photoOf('#604020'));
    await describeWith(phone, photo);
    await expect
      .poll(() => phone.sync.once().then(() => states(phone)))
      .toEqual(['drafted', 'drafted', 'there', 'there']);
    expect(await kept.blobs.list()).toEqual([photo.full, photo.small].sort());
    line.sent.length = 0;
    await describeWith(phone, photo, 'red');
    await phone.sync.once();
    expect(line.sent).toEqual(['POST /api/records']);
  });

  it('that a record named and another replaced goes to the server all the same', async () => {
    const { line, kept, fetch } = await house();
    const phone = await device(fetch);
    await phone.sync.once();
    line.cut = 'all';
    const [first, second] = [await hold(phone, await photoOf('#111111')), await hold(phone, await photoOf('#eeeeee'))];
    await describeWith(phone, first);
    await describeWith(phone, second);
    line.cut = 'no';
    const all = [first.full, first.small, second.full, second.small].sort();
    await expect.poll(() => phone.sync.once().then(() => kept.blobs.list())).toEqual(all);
  });

  it('goes again when the server was put back from a copy without it (Verifies: LOG-R95)', async () => {
    const { kept, start, fetch } = await house();
    const phone = await device(fetch);
    await phone.sync.once();
    const older = await kept.log.read();
    const photo = await hold(phone, await photoOf('#204060'));
    await describeWith(phone, photo);
    await expect.poll(() => phone.sync.once().then(() => states(phone))).toEqual(['there', 'there']);

    const log = memoryStore();
    for (const { receivedAt, seq: _seq, hash: _hash, ...record } of older)
      await log.append([record as LogRecord], receivedAt);
    await start(log, memoryBlobs());
    await expect.poll(() => phone.sync.once().then(() => kept.blobs.list())).toEqual([photo.full, photo.small].sort());
    await expect
      .poll(() => phone.sync.once().then(() => verifyPictures(kept.log, kept.blobs)))
      .toMatchObject({ missing: [] });
  });

  it('stays here with the reason when the server will not have it, and holds nothing else up (Verifies: LOG-R95)', async () => {
    const { kept, fetch } = await house();
    const phone = await device(fetch);
    await phone.sync.once();
    const good = await photoOf('#204060');
    const bad = named(good.small.bytes.slice(0, -2)) ?? {
      ...good.full,
      bytes: Uint8Array.from([...good.full.bytes, 1]),
    };
    const photo = await hold(phone, { full: bad, small: good.small });
    await describeWith(phone, photo);
    await expect.poll(() => phone.sync.once().then(() => states(phone))).toEqual(['there', 'turned-away']);
    expect(phone.store.status.get()).toMatchObject({ unsent: 0, pictures: { waiting: 0, notTaken: 1 } });
    expect(await phone.db.pictures.where('state').equals('turned-away').first()).toMatchObject({
      why: { say: 'server.problem.photo-not-plain' },
    });
    expect(await kept.blobs.list()).toEqual([photo.small]);
  });
});

it('lets go of the pictures of who has left, but never of one that the server does not have', async () => {
  const { line, fetch } = await house();
  const phone = await device(fetch);
  await phone.sync.once();
  await describeWith(phone, await hold(phone, await photoOf('#204060')));
  await expect.poll(() => phone.sync.once().then(() => states(phone))).toEqual(['there', 'there']);
  line.cut = 'pictures';
  await describeWith(phone, await hold(phone, await photoOf('#204061')));
  const left = await phone.store.append(letLeave(kit, { how: 'adopted', on: day('2026-03-02') }, noon));
  expect(left.ok).toBe(true);
  await phone.sync.once();
  expect((await states(phone)).filter((state) => state === 'waiting')).toHaveLength(2);
  line.cut = 'no';
  await expect.poll(() => phone.sync.once().then(() => states(phone))).toEqual([]);
});

it('says so when the device has no room for it', async () => {
  const { fetch } = await house();
  const phone = await device(fetch);
  phone.db.pictures.hook('creating', () => {
    throw new DOMException('no space', 'QuotaExceededError');
  });
  expect(await holdPhoto(phone.db, await photoOf('#204060'), noon)).toMatchObject({
    ok: false,
    why: { say: 'parts.photo.no-room' },
  });
});
