import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { v7 } from 'uuid';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { PersonId, type RecordId } from '../../src/core/ids.js';
import { type Db, openDb } from '../../src/device/db.js';
import { type LocalStore, makeStore } from '../../src/device/store/store.js';
import { admission } from '../../src/log/admit.js';
import { signersOf } from '../../src/log/private-side.js';
import { type Draft, type LogRecord, stamp } from '../../src/log/record.js';
import { buildWorld, type World } from '../../src/log/views/world.js';
import { times } from '../support/chance.js';
import { attackers, ground } from '../support/hostile.js';
import { at } from '../support/log.js';
import { everyKind, oneOf } from '../support/one-of-each.js';
import { shelterPeople } from '../support/shelter-log.js';

const noon = at('2026-03-02', '12:00');
const people = ['vera', ...Object.values(attackers)];
const { shelter } = buildWorld(ground);
let db: Db;
let store: LocalStore;
let before: World;

beforeAll(async () => {
  db = openDb('one-admission');
  await db.records.bulkPut(ground.map((record, index) => ({ ...record, seq: index + 1, hash: 'h', receivedAt: noon })));
  await db.names.bulkPut(shelterPeople.map(({ id, name, licence }) => ({ id, name, licence })));
  store = makeStore({ db, now: () => noon, newId: v7 });
  await store.open();
  before = store.world.get();
});
afterAll(() => db.close());

/** What the server says to the same drafts by the same people: null when all may come in. */
async function serverSays(drafts: readonly Draft[], by: string) {
  const { device } = store.status.get();
  if (shelter.id === null || device === null) throw new Error('there is no shelter here');
  const stamped = { shelter: shelter.id, zone: 'UTC', by: PersonId.parse(by), device, nextSeq: 1, now: noon };
  const records = stamp(drafts, { ...stamped, newId: v7 });
  const find = async (ids: readonly RecordId[]) => ground.filter(({ id }) => ids.includes(id));
  const admit = await admission(shelter, signersOf(shelterPeople), records, find);
  const answers = records.map((record) => admit(record));
  return answers.find((answer) => !answer.ok)?.why ?? null;
}

const deviceSays = async (drafts: readonly Draft[], by: string) => {
  await store.chooseWho({ person: PersonId.parse(by), partner: null });
  const waiting = await db.outbox.count();
  const outcome = await store.append(drafts);
  expect((await db.outbox.count()) - waiting).toBe(outcome.ok ? drafts.length : 0);
  if (outcome.ok) await forget(outcome.value);
  return outcome.ok ? null : outcome.why;
};

/** What was tried has no say in what is tried next. */
async function forget(records: readonly LogRecord[]): Promise<void> {
  const ids = records.map(({ id }) => id);
  await db.transaction('rw', db.records, db.outbox, async () => {
    await db.records.bulkDelete(ids);
    await db.outbox.bulkDelete(ids);
  });
  store.world.set(before);
}

it('a device takes and refuses what the server does, for every kind and role, alone or for another (Verifies: LOG-R100)', async () => {
  let [refused, taken] = [0, 0];
  for (const kind of everyKind) {
    for (const by of people) {
      for (const other of [undefined, ...people, 'stranger']) {
        const drafts = [{ ...oneOf(kind), ...(other === undefined ? {} : { by: PersonId.parse(other) }) }];
        const said = await serverSays(drafts, by);
        expect(await deviceSays(drafts, by), `${kind} by ${other ?? by}, written by ${by}`).toEqual(said);
        if (said === null) taken += 1;
        else refused += 1;
      }
    }
  }
  expect(Math.min(taken, refused)).toBeGreaterThan(100);
});

it('and so for corrections of what is here and what is not, several at once (Verifies: LOG-R100)', async () => {
  const one = fc
    .record({
      kind: fc.constantFrom(...everyKind),
      target: fc.constantFrom(...ground.map(({ id }) => id), 'not-here' as RecordId),
      own: fc.boolean(),
    })
    .map(({ kind, target, own }): Draft => {
      const subject = own ? ground.find(({ id }) => id === target)?.subject : undefined;
      return { ...oneOf(kind, subject), corrects: target };
    });
  await fc.assert(
    fc.asyncProperty(fc.array(one, { minLength: 1, maxLength: 3 }), fc.constantFrom(...people), async (drafts, by) => {
      expect(await deviceSays(drafts, by)).toEqual(await serverSays(drafts, by));
    }),
    { numRuns: times(200, 4_000) },
  );
});
