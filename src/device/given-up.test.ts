import 'fake-indexeddb/auto';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type Db, openDb, withinTime } from './db.js';
import { giveUpWhenLeft } from './given-up.js';

let made = 0;
let db: Db;
let page: EventTarget;
const comeBack = vi.fn();
const tell = (what: 'pagehide' | 'pageshow', persisted: boolean): boolean =>
  page.dispatchEvent(Object.assign(new Event(what), { persisted }));

beforeEach(() => {
  made += 1;
  comeBack.mockReset();
  page = new EventTarget();
  db = openDb(`given-up-${made}`);
  giveUpWhenLeft(db, page, comeBack);
});
afterEach(() => db.close());

/** A save of two parts; the page is left between them. */
const saveLeft = (persisted: boolean): Promise<unknown> =>
  withinTime(db, 5_000, async () => {
    await db.meta.put({ key: 'first', value: 1 });
    tell('pagehide', persisted);
    await db.meta.put({ key: 'second', value: 2 });
  });

test('what is under way when the page is put away is given up whole, and the database is free', async () => {
  await expect(saveLeft(true)).rejects.toThrow();
  expect(await db.meta.toArray()).toEqual([]);
  await db.meta.put({ key: 'next', value: 3 });
  expect(await db.meta.count()).toBe(1);
  expect(comeBack).not.toHaveBeenCalled();
  tell('pageshow', true);
  expect(comeBack).toHaveBeenCalledOnce();
});

test('a page that is closed or loaded anew is left to the browser', async () => {
  await saveLeft(false);
  expect(await db.meta.count()).toBe(2);
});

test('a page that was put away with nothing under way is as it was', async () => {
  await db.meta.put({ key: 'first', value: 1 });
  tell('pagehide', true);
  tell('pageshow', true);
  expect(comeBack).not.toHaveBeenCalled();
  expect(await db.meta.count()).toBe(1);
});
