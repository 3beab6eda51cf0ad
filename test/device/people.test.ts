import 'fake-indexeddb/auto';
import { v7 } from 'uuid';
import { afterEach, describe, expect, it } from 'vitest';
import type { Fetch } from '../../src/api/client.js';
import { PersonId } from '../../src/core/ids.js';
import { openDb } from '../../src/device/db.js';
import { type LocalStore, makeStore } from '../../src/device/store/store.js';
import { makeSync } from '../../src/device/sync/sync.js';
import { describePerson } from '../../src/log/commands/shelter.js';
import { draft } from '../../src/log/record.js';
import { createApp } from '../../src/server/app.js';
import { memoryStore } from '../../src/store/memory/store.js';
import { memoryPrivateSide } from '../../src/store/private/memory.js';
import { memorySignIns } from '../../src/store/private/sign-ins.js';
import { at, day } from '../support/log.js';
import { shelterLog, shelterPeople, starterProtocol } from '../support/shelter-log.js';
import { signedInOn } from '../support/signed-in.js';

const noon = at('2026-03-02', '12:00');
const id = (text: string): PersonId => PersonId.parse(text);
const telephone = { by: 'telephone' as const, value: '0 000 0001' };
let made = 0;
const toClose: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of toClose.splice(0).reverse()) await close();
});

const signIns = memorySignIns();

/** A server with its private side, and a line that can be cut. */
async function house() {
  const store = memoryStore();
  await store.append(shelterLog(2).records, noon);
  const people = memoryPrivateSide(shelterPeople);
  await people.change([{ id: id('ines'), contacts: [telephone] }]);
  const app = await createApp({ store, people, signIns, clock: () => noon, version: '9.9.9' });
  toClose.push(() => app.close());
  const network = { there: true };
  const line: Fetch = async (url, { method, headers, body }) => {
    if (!network.there) throw new Error('no network');
    const payload = body === undefined ? {} : { payload: body };
    const answer = await app.inject({ method: method as 'GET', url, headers, ...payload });
    return { status: answer.statusCode, text: async () => answer.body };
  };
  return { store, people, network, line };
}

async function device(line: Fetch, person: string, name = `people-${++made}`) {
  const db = openDb(name);
  const store = makeStore({ db, now: () => noon, newId: v7 });
  toClose.push(() => db.close());
  await store.open();
  await store.chooseWho({ person: id(person), partner: null });
  const sync = makeSync(
    store,
    () => noon,
    signedInOn(signIns, store, line, () => noon),
  );
  toClose.push(sync.stop);
  return { db, store, sync, name };
}

const namesOn = ({ people }: LocalStore): Record<string, string> =>
  Object.fromEntries([...people.names.get()].map(([person, { name }]) => [person, name]));

describe('names on a device', () => {
  it('come as a list taken whole: who is withdrawn or erased is known there no longer (Verifies: LOG-R82)', async () => {
    const { people, line, network } = await house();
    const { store, sync, db, name } = await device(line, 'sol');
    await sync.once();
    expect(namesOn(store)).toEqual({ ines: 'Ines', sol: 'Sol', vera: 'Vera' });
    expect(store.people.names.get().get('vera')?.licence).toBe('Invented 1');
    await people.change([{ id: id('ines'), withdrawn: true }]);
    // Without the network nothing is lost, also over a reload.
    network.there = false;
    await sync.once();
    db.close();
    const again = await device(line, 'sol', name);
    expect(namesOn(again.store)).toEqual({ ines: 'Ines', sol: 'Sol', vera: 'Vera' });
    network.there = true;
    await again.sync.once();
    expect(namesOn(again.store)).toEqual({ sol: 'Sol', vera: 'Vera' });
    await people.erase([id('vera')]);
    await again.sync.once();
    expect(namesOn(again.store)).toEqual({ sol: 'Sol' });
    expect(JSON.stringify(await again.db.names.toArray())).not.toMatch(/Ines|Vera|Invented/);
  });

  it('are never contacts, and nobody who is in no record (Verifies: LOG-R82)', async () => {
    const { people, line } = await house();
    await people.change([{ id: id('carer-9'), name: 'Carer Nine', contacts: [telephone] }]);
    const { store, sync, db } = await device(line, 'sol');
    await sync.once();
    expect(Object.keys(namesOn(store))).toEqual(['ines', 'sol', 'vera']);
    const everything = await Promise.all(db.tables.map((table) => table.toArray()));
    expect(JSON.stringify(everything)).not.toMatch(/0 000 0001|Carer Nine/);
  });

  it('of somebody new are known there at once without the network, and go before the records (Verifies: LOG-R85)', async () => {
    const { store: log, people, line, network } = await house();
    const { store, sync } = await device(line, 'sol');
    // Who gives a licence looks after sign-ins, too (LOG-R216).
    signIns.setAdministers(id('sol'), true);
    await sync.once();
    network.there = false;
    const nic = { id: id('nic'), name: 'Nic', licence: 'Invented 2', contacts: [telephone] };
    expect(await store.people.change(nic, id('sol'))).toMatchObject({ ok: true });
    expect(await store.append(describePerson({ person: nic.id, role: 'medical' }, noon))).toMatchObject({ ok: true });
    await store.chooseWho({ person: id('ines'), partner: null });
    await sync.once();
    expect(namesOn(store)).toMatchObject({ nic: 'Nic' });
    expect(store.people.waiting.get()).toHaveLength(1);
    expect(store.status.get().unsent).toBe(2);
    network.there = true;
    await sync.once();
    // Nothing goes in the name of who holds the device now: each waits for whoever it is of.
    expect((await people.people()).map((one) => one.id)).not.toContain('nic');
    expect(store.people.waiting.get()).toHaveLength(1);
    await store.chooseWho({ person: id('sol'), partner: null });
    await sync.once();
    expect((await log.read()).at(-1)?.kind).toBe('person-described');
    // The new veterinarian signs in, takes the device over and signs.
    await store.chooseWho({ person: nic.id, partner: null });
    const { id: document, version } = starterProtocol;
    const signed = { document: 'protocol' as const, id: document, version, on: day('2026-03-02'), statement: '' };
    const signature = draft(
      'document-signed',
      `document:${document}`,
      { ...signed, signer: nic.name, licence: nic.licence },
      noon,
    );
    expect(await store.append([signature])).toMatchObject({ ok: true });
    await sync.once();
    expect((await people.people()).find((one) => one.id === 'nic')).toMatchObject({ ...nic, withdrawn: false });
    expect(store.status.get()).toMatchObject({ unsent: 0, turnedAway: 0 });
    expect((await log.read()).at(-1)?.kind).toBe('document-signed');
    expect(store.people.waiting.get()).toEqual([]);
    expect(namesOn(store)).toMatchObject({ nic: 'Nic' });
  });

  it('changed here stay, with the reason, when the server will not have them (Verifies: LOG-R85)', async () => {
    const { people, line } = await house();
    const { store, sync } = await device(line, 'ines');
    await people.erase([id('vera')]);
    await store.people.change({ id: id('sol'), name: 'Sol Other' }, id('ines'));
    await store.people.change({ id: id('vera'), name: 'Vera' }, id('sol'));
    await sync.once();
    // What the supervisor changed waits until she is signed in here.
    expect(store.people.waiting.get().find((one) => one.id === 'vera')?.why).toBeNull();
    await store.chooseWho({ person: id('sol'), partner: null });
    await sync.once();
    const why = Object.fromEntries(store.people.waiting.get().map((one) => [one.id, one.why?.say]));
    expect(why).toEqual({ sol: 'server.problem.role-not-allowed', vera: 'parts.people.erased' });
    expect(namesOn(store)).toEqual({ ines: 'Ines', sol: 'Sol' });
    await store.people.drop(id('sol'));
    expect(store.people.waiting.get().map((one) => one.id)).toEqual(['vera']);
  });

  it('changed while the change before was on its way are sent once more', async () => {
    const { people, line } = await house();
    let during = async (): Promise<unknown> => undefined;
    const slow: Fetch = async (url, init) => {
      const answer = await line(url, init);
      if (init.method === 'POST' && url.endsWith('/people')) await during();
      return answer;
    };
    const { store, sync } = await device(slow, 'sol');
    await store.people.change({ id: id('ines'), name: 'Ines One' }, id('sol'));
    during = async () => {
      during = async () => undefined;
      await store.people.change({ id: id('ines'), name: 'Ines Two' }, id('sol'));
    };
    await sync.once();
    await sync.once();
    expect(store.people.waiting.get()).toEqual([]);
    expect((await people.people()).find((one) => one.id === 'ines')?.name).toBe('Ines Two');
    expect(namesOn(store)).toMatchObject({ ines: 'Ines Two' });
  });
});
