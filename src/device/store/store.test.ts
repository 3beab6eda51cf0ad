import 'fake-indexeddb/auto';
import { v7 } from 'uuid';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Client } from '../../api/client.js';
import { AnimalId, DeviceId, PersonId, ShelterId } from '../../core/ids.js';
import type { InParts } from '../../core/in-parts.js';
import { said } from '../../core/said.js';
import { weighAnimal } from '../../log/commands/animal.js';
import { describePerson, describeShelter } from '../../log/commands/shelter.js';
import { type LogRecord, stamp } from '../../log/record.js';
import { lostInWords } from '../../log/views/documents/lost-documents.js';
import { type Db, openDb, readCursor, readMeta, TooSlow, withinTime } from '../db.js';
import { meet } from '../sync/meet.js';
import { pull } from '../sync/pull.js';
import { push } from '../sync/push.js';
import { pullingFor } from '../sync/sync.js';
import { type LocalStore, makeStore } from './store.js';

const at = '2026-03-10T14:00:00.000Z';
const person = PersonId.parse('person-1');
const animal = AnimalId.parse('animal-1');
let made = 0;
let db: Db;
let store: LocalStore;

/** What a server that has just been set up would give: shelter, and one person of a role. */
function kept(
  role: 'supervisor' | 'caregiver',
  device = 'server',
): (LogRecord & { seq: number; hash: string; receivedAt: string })[] {
  const drafts = [
    ...describeShelter({ name: 'Test shelter', zone: 'America/Chicago', weightUnit: 'g', demo: false }, at),
    ...describePerson({ person, role }, at),
  ];
  const records = stamp(drafts, {
    shelter: ShelterId.parse('shelter-1'),
    zone: 'UTC',
    by: person,
    device: DeviceId.parse(device),
    nextSeq: 1,
    now: at,
    newId: v7,
  });
  return records.map((record, index) => ({ ...record, seq: index + 1, hash: 'h', receivedAt: at }));
}

const head = (seq: number) => ({ seq, hash: 'h', receivedAt: at });
const clock = { serverAt: at, deviceAt: at, skew_s: 0, note: null };

/** A client of which only the named routes answer. */
const client = (routes: Partial<Record<keyof Client, unknown>>): Client => routes as unknown as Client;

beforeEach(async () => {
  made += 1;
  db = openDb(`test-${made}`);
  store = makeStore({ db, now: () => at, newId: v7 });
  await store.open();
});
afterEach(() => db.close());

async function atWork(role: 'supervisor' | 'caregiver' = 'supervisor'): Promise<void> {
  const records = kept(role);
  await db.records.bulkPut(records);
  store.take(records);
  await store.chooseWho({ person, partner: null });
}

const waitingCount = (): Promise<number> => db.outbox.filter((row) => row.state === 'waiting').count();

const weigh = (grams: number) => weighAnimal(animal, { grams, entered: `${grams} g` }, at);

describe('append', () => {
  test('answers ok once records, outbox and count stand in the database, and applies them to the world', async () => {
    await atWork();
    const outcome = await store.append(weigh(620));
    expect(outcome.ok).toBe(true);
    const id = outcome.ok ? (outcome.value[0]?.id ?? '') : '';
    expect((await db.records.get(id))?.kind).toBe('animal-weighed');
    expect((await db.outbox.get(id))?.state).toBe('waiting');
    expect(store.status.get().unsent).toBe(1);
    expect(store.world.get().ids.has(id as never)).toBe(true);
  });

  test('numbers of the device follow each other without a hole, also when saves overlap', async () => {
    await atWork();
    const outcomes = await Promise.all([
      store.append(weigh(620)),
      store.append([...weigh(630), ...weigh(640)]),
      store.append(weigh(650)),
    ]);
    const numbers = outcomes.flatMap((one) => (one.ok ? one.value.map((record) => record.deviceSeq) : []));
    expect(numbers.sort((a, b) => a - b)).toEqual([1, 2, 3, 4]);
  });

  test('a database that fails is said so, and nothing appears in the world', async () => {
    await atWork();
    const before = store.world.get();
    db.close({ disableAutoOpen: true });
    const outcome = await store.append(weigh(620));
    expect(outcome).toMatchObject({ ok: false, why: { say: 'parts.not-saved' } });
    expect(store.world.get()).toBe(before);
  });

  test('nobody at work, or somebody whose role may not: nothing is written', async () => {
    expect(await store.append(weigh(620))).toMatchObject({ ok: false, why: { say: 'parts.no-shelter' } });
    await atWork('caregiver');
    const outcome = await store.append(describePerson({ person, role: 'supervisor' }, at));
    expect(outcome).toMatchObject({ ok: false, why: { say: 'server.problem.record-not-allowed' } });
    expect(await db.outbox.count()).toBe(0);
  });
});

test('a transaction that never ends is given up in time and leaves nothing behind', async () => {
  const work = withinTime(db, 80, async () => {
    await db.meta.put({ key: 'half', value: 1 });
    // Keeps the transaction alive without ever finishing it.
    for (;;) await db.meta.get('half');
  });
  await expect(work).rejects.toBeInstanceOf(TooSlow);
  expect(await readMeta(db, 'half')).toBeUndefined();
});

describe('push', () => {
  test('what the server has counts as sent until it comes back; what it turns away stays with its reason', async () => {
    await atWork();
    await store.append([...weigh(620), ...weigh(630)]);
    const problem = { said: { say: 'server.problem.record-conflict' } };
    const answer = {
      ok: true,
      value: {
        outcomes: [
          { index: 0, id: '', outcome: 'already-there', seq: 3, problem: null },
          { index: 1, id: '', outcome: 'refused', seq: null, problem },
        ],
        head: head(3),
        clock,
      },
    };
    expect(await push(db, client({ append: async () => answer }))).toMatchObject({ reached: true });
    const left = await db.outbox.orderBy('deviceSeq').toArray();
    expect(left.map((row) => [row.state, row.why?.say])).toEqual([
      ['sent', undefined],
      ['turned-away', 'server.problem.record-conflict'],
    ]);
    await store.recount();
    expect(store.status.get()).toMatchObject({ unsent: 1, turnedAway: 1 });
  });

  test('a sending larger than the server takes goes in smaller ones', async () => {
    await atWork();
    await store.append([...weigh(620), ...weigh(630), ...weigh(640)]);
    const sizes: number[] = [];
    const small = client({
      append: async ({ records }: { records: LogRecord[] }) => {
        sizes.push(records.length);
        if (records.length > 1) return { ok: false, code: 'request-too-large', problem: null };
        const outcomes = records.map(({ id }, index) => ({ index, id, outcome: 'stored', seq: 3, problem: null }));
        return { ok: true, value: { outcomes, head: head(3), clock } };
      },
    });
    expect(await push(db, small)).toMatchObject({ reached: true });
    expect(await waitingCount()).toBe(0);
    expect(sizes.slice(-3)).toEqual([1, 1, 1]);
    // One record that is too large by itself stays, and the device does not ask for ever.
    await store.append(weigh(650));
    const none = client({ append: async () => ({ ok: false, code: 'request-too-large', problem: null }) });
    expect(await push(db, none)).toEqual({ reached: false, code: 'request-too-large' });
    expect(await waitingCount()).toBe(1);
  });

  test('an answer that never came changes nothing: the same records are sent again', async () => {
    await atWork();
    await store.append(weigh(620));
    const sent: unknown[] = [];
    const lost = client({
      append: async (body: unknown) => {
        sent.push(body);
        return { ok: false, code: 'unreachable', problem: null };
      },
    });
    expect(await push(db, lost)).toEqual({ reached: false, code: 'unreachable' });
    await push(db, lost);
    expect(sent).toHaveLength(2);
    expect(sent[1]).toEqual(sent[0]);
    expect(await db.outbox.count()).toBe(1);
  });
});

describe('pull', () => {
  test('takes page after page, remembers the place, and goes on counting after records of this device', async () => {
    const device = store.status.get().device ?? '';
    const records = kept('supervisor', device);
    const pages = client({
      records: async ({ after }: { after: number }) => ({
        ok: true,
        value: {
          records: records.slice(after, after + 1),
          next: Math.min(records.length, after + 1),
          hash: 'h',
          left: [],
          head: head(2),
        },
      }),
    });
    expect(await pull(db, pages, pullingFor(store, device, 0))).toEqual({ reached: true });
    expect(await readCursor(db)).toEqual({ place: 2, hash: 'h' });
    expect(await readMeta(db, 'whole')).toBe(true);
    expect(store.world.get().shelter.name).toBe('Test shelter');
    await store.chooseWho({ person, partner: null });
    const outcome = await store.append(weigh(620));
    expect(outcome.ok && outcome.value[0]?.deviceSeq).toBe(3);
  });

  test('a record of a newer version is kept unread, and the place moves on', async () => {
    const newer = { ...kept('supervisor')[0], kind: 'not-invented-yet', seq: 1 };
    const page = client({
      records: async () => ({ ok: true, value: { records: [newer], next: 1, hash: 'h', left: [], head: head(1) } }),
    });
    await pull(db, page, pullingFor(store, 'device', 0));
    await store.recount();
    expect(store.status.get().unread).toBe(1);
    expect(await readCursor(db)).toEqual({ place: 1, hash: 'h' });
  });
});

describe('pull past damage', () => {
  test('what is damaged on the server is counted, and the place moves on (Verifies: LOG-R17)', async () => {
    const records = kept('supervisor');
    const damaged = [{ seq: 3, id: '', kind: 'animal-weighed', subject: 'animal:a' }];
    const pages = client({
      records: async ({ after }: { after: number }) => ({
        ok: true,
        value:
          after < 3
            ? { records: [], damaged, next: 3, left: [], head: head(5) }
            : { records, next: 5, left: [], head: head(5) },
      }),
    });
    expect(await pull(db, pages, pullingFor(store, 'device', 0))).toEqual({ reached: true });
    await store.recount();
    expect([store.status.get().damaged, store.status.get().unread]).toEqual([1, 0]);
    expect(await readCursor(db)).toMatchObject({ place: 5 });
    expect(store.world.get().shelter.name).toBe('Test shelter');
    expect(store.world.get().unread).toEqual([{ seq: 3, kind: 'animal-weighed', subject: 'animal:a' }]);
  });

  test('a damaged signature is no invitation to sign (Verifies: LOG-R40)', async () => {
    const damaged = [{ seq: 3, id: '', kind: 'document-signed', subject: 'document:starter' }];
    const pages = client({
      records: async () => ({
        ok: true,
        value: { records: kept('supervisor'), damaged, next: 5, left: [], head: head(5) },
      }),
    });
    await pull(db, pages, pullingFor(store, 'device', 0));
    await store.recount();
    expect(lostInWords(store.world.get().shelter)).toEqual(said('log.unsure-protocol', { id: 'starter' }));
  });
});

describe('meet', () => {
  const ready = (id: string, seq: number) =>
    client({ shelter: async () => ({ ok: true, value: { state: 'ready', serverAt: at, id, head: head(seq) } }) });

  test('a server of another shelter gets nothing', async () => {
    await atWork();
    expect(await meet(store, ready('shelter-2', 9), () => at)).toEqual({ reached: false, code: 'other-shelter' });
    expect(await meet(store, ready('shelter-1', 9), () => at)).toEqual({ reached: true, head: 9 });
  });
});

test('what another tab has written is read from the database they share', async () => {
  await atWork();
  const other = makeStore({ db, now: () => at, newId: v7 });
  await other.open();
  const outcome = await other.append(weigh(700));
  const id = outcome.ok ? (outcome.value[0]?.id ?? '') : '';
  expect(store.world.get().ids.has(id as never)).toBe(false);
  await store.rereadRecords([id]);
  expect(store.world.get().ids.has(id as never)).toBe(true);
});

test('what another tab writes while this one still reads is there when it is open', async () => {
  await atWork();
  const writer = store;
  let reread: Promise<void> | null = null;
  let id = '';
  const late = makeStore({
    db,
    now: () => at,
    newId: v7,
    rest: {
      isDue: () => true,
      take: async () => {
        if (reread !== null) return;
        reread = Promise.resolve();
        const outcome = await writer.append(weigh(810));
        id = outcome.ok ? (outcome.value[0]?.id ?? '') : '';
        reread = late.rereadRecords([id]);
      },
    },
  });
  await late.open();
  await reread;
  expect(id).not.toBe('');
  expect(late.world.get().ids.has(id as never)).toBe(true);
});

test.each([
  ['cannot be answered', () => Promise.resolve(unanswered)],
  ['cannot be fetched', () => Promise.reject(new Error('out of reach'))],
])('a page that asks ahead for what %s opens all the same', async (_, ahead) => {
  await atWork();
  const other = makeStore({ db, now: () => at, newId: v7 });
  await other.open(ahead);
  expect(other.status.get().phase).toBe('ready');
  expect(other.world.get().shelter.name).toBe('Test shelter');
});

function* unanswered(): InParts<void> {
  yield;
  throw new Error('cannot be answered');
}

test('what the first page asks is asked of the world that it is shown, before it is ready', async () => {
  await atWork();
  const asked: unknown[] = [];
  const other: LocalStore = makeStore({ db, now: () => at, newId: v7 });
  await other.open(
    async () =>
      function* (world) {
        yield;
        asked.push(world, other.status.get().phase);
      },
  );
  expect(asked).toEqual([other.world.get(), 'opening']);
  expect(asked[0]).toBe(other.world.get());
});

test('a status that did not change is not told', async () => {
  let told = 0;
  store.status.subscribe(() => {
    told += 1;
  });
  store.say({ told: [], pictures: { waiting: 0, notTaken: 0 }, trouble: null });
  expect(told).toBe(0);
  store.say({ told: [said('parts.opening')] });
  expect(told).toBe(1);
});
