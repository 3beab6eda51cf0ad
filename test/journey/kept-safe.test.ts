import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';
import type { Device } from './pages/device.js';

/** A Thursday in kitten season, half past one in the afternoon where the invented shelter is. */
const start = '2026-05-14T18:30:00.000Z';

const shelter = openShelter('kept-safe', start);
let { served, phone, desk }: Opened = {} as Opened;

beforeAll(async () => {
  ({ served, phone, desk } = shelter());
  await phone.takeDemo();
  await phone.workAs('Tove Margin');
  await desk.workAs('Ada Quill');
});

interface Sent {
  readonly id: string;
  readonly by: string;
  readonly body: { readonly grams: number };
}

/** In the page: the record of this device that is not sent yet, as its own database holds it. */
const firstUnsent = async (): Promise<Sent> => {
  const open = indexedDB.open('roundhand');
  const answer = <T>(request: IDBRequest<T>): Promise<T> =>
    new Promise((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  const db = await answer(open);
  const stores = db.transaction(['records', 'outbox']);
  const [row] = await answer(stores.objectStore('outbox').getAllKeys());
  const record = await answer(stores.objectStore('records').get(row ?? ''));
  db.close();
  return record;
};

/** In the page: what a newer version of the program does first when it is opened in another tab. */
const openNewer = (): Promise<void> =>
  new Promise((resolve, reject) => {
    const open = indexedDB.open('roundhand', 9990);
    open.onupgradeneeded = () => open.result.createObjectStore('fromTheFuture');
    open.onsuccess = () => {
      open.result.close();
      resolve();
    };
    open.onerror = () => reject(open.error);
  });

async function weigh(device: Device, animal: string, weight: string): Promise<void> {
  await device.open('/animals');
  await device.page.getByRole('link', { name: animal }).first().click();
  await device.press('Weigh');
  await device.page.getByRole('textbox', { name: /^Weight/ }).fill(weight);
}

/** What a device wrote down is not lost, whatever happens to the store it lies in. */
describe.sequential('what a device keeps', () => {
  it('opens although its small mark beside the database is broken', async () => {
    await phone.page.evaluate(() => localStorage.setItem('roundhand.held', '{"records": 12'));
    await phone.page.reload();
    await phone.says('Needs somebody now');
    await phone.saysNot(/cannot open its own store/);
    expect(await phone.records('animal-taken-in')).toBeGreaterThan(0);
  });

  it('keeps a record that the log has otherwise, and shows both (Verifies: LOG-R4)', async () => {
    const offline = (off: boolean) => phone.page.context().setOffline(off);
    await weigh(phone, 'Brambling', '620');
    await offline(true);
    await phone.page.getByRole('dialog').getByRole('button', { name: 'Weigh', exact: true }).click();
    await expect.poll(() => phone.unsent()).toBe(1);
    const own = await phone.page.evaluate(firstUnsent);
    expect(own.body.grams).toBe(620);
    // The same number with other words, as a device makes whose store was copied: the log has it first.
    const other = { ...own, body: { ...own.body, grams: 260, entered: '260 g' } };
    const json = { 'content-type': 'application/json' };
    const entered = await fetch(`${served.url()}/api/sign-in/demo`, {
      method: 'POST',
      headers: json,
      body: JSON.stringify({ person: own.by, device: 'copied' }),
    });
    const cookie = entered.headers.getSetCookie().map((line) => line.split(';')[0]);
    const answer = await fetch(`${served.url()}/api/records`, {
      method: 'POST',
      headers: { ...json, cookie: cookie.join('; ') },
      body: JSON.stringify({ records: [other] }),
    });
    expect(await answer.json()).toMatchObject({ outcomes: [{ outcome: 'stored' }] });
    await offline(false);
    await phone.open('/device');
    await phone.says('turned away');
    await phone.says(/Brambling: Weighed: 620/);
    await phone.says(/that one counts: Brambling: Weighed: 260/);
    // Both are still there after everything was fetched and the page was opened again.
    await phone.page.reload();
    await phone.says(/Brambling: Weighed: 620/);
    await phone.says(/that one counts: Brambling: Weighed: 260/);
    await phone.lookAt('a record the log has otherwise');
  });

  it('writes nothing into a database that a newer version has taken over, and keeps what was typed (Verifies: LOG-R31)', async () => {
    await weigh(desk, 'Serin', '640');
    const before = await desk.page.evaluate(countRecords);
    const beside = await desk.page.context().newPage();
    await beside.goto(`${served.url()}/icon.svg`);
    await beside.evaluate(openNewer);
    await beside.close();
    await desk.says(/A newer version of this program has been opened on this device/);
    await desk.page.getByRole('dialog').getByRole('button', { name: 'Weigh', exact: true }).click();
    // The sentence stands behind the sign of its notice.
    await desk.says(/Not saved: a newer version/);
    expect(await desk.page.getByRole('textbox', { name: /^Weight/ }).inputValue()).toBe('640');
    expect(await desk.page.evaluate(countRecords)).toBe(before);
    await desk.lookAt('a newer version has taken over');
    await desk.page.keyboard.press('Escape');
    await desk.press('Load the newer version');
    // The program that is loaded is still the old one here: it says so, and leaves the records as they are.
    await desk.says(/This older one would spoil its records/);
    expect(await desk.page.evaluate(countRecords)).toBe(before);
  });
});

/** In the page: all records in the device's database, whatever version it has. */
const countRecords = async (): Promise<number> => {
  const open = indexedDB.open('roundhand');
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    open.onsuccess = () => resolve(open.result);
    open.onerror = () => reject(open.error);
  });
  const count = db.transaction('records').objectStore('records').count();
  const found = await new Promise<number>((resolve) => {
    count.onsuccess = () => resolve(count.result);
  });
  db.close();
  return found;
};
