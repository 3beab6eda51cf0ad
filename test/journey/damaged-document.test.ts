import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PersonId } from '../../src/core/ids.js';
import { hashSecret } from '../../src/server/sign-in/secrets.js';
import { openSignIns } from '../../src/store/private/sign-ins.js';
import { openPrivateSide } from '../../src/store/private/sqlite.js';
import { openStore, storeFile } from '../../src/store/sqlite/open.js';
import { at } from '../support/log.js';
import { shelterLog, shelterPeople } from '../support/shelter-log.js';
import { Desk } from './pages/desk.js';
import { serve } from './served.js';

const start = at('2026-03-02', '12:00');
const folder = mkdtempSync(join(tmpdir(), 'roundhand-damaged-document-'));
const closing: (() => unknown)[] = [() => rmSync(folder, { recursive: true, force: true })];
const password = 'seven quiet kittens';
let desk: Desk;

beforeAll(async () => {
  const opened = await openStore(folder);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(shelterLog(3).records, start);
  await opened.value.close();
  const side = openPrivateSide(folder);
  if (!side.ok) throw new Error(JSON.stringify(side.why));
  await side.value.change(shelterPeople);
  await side.value.close();
  const db = new SqliteDatabase(join(folder, storeFile));
  db.exec("update records set body = '{' where kind = 'protocol-filed'");
  db.close();
  const signIns = openSignIns(folder);
  if (!signIns.ok) throw new Error(signIns.why.say);
  signIns.value.setAdministers(PersonId.parse('sol'), true);
  signIns.value.setSecret(PersonId.parse('sol'), 'password', await hashSecret(password));
  signIns.value.close();
  const served = await serve(folder, start);
  closing.push(served.stop);
  const browser = await chromium.launch({
    executablePath: process.env.CHROME_PATH ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu'],
  });
  closing.push(() => browser.close());
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  desk = new Desk(await context.newPage(), served.url());
});
afterAll(async () => {
  for (const close of closing.toReversed()) await close();
});

describe('a device of a shelter whose protocol is damaged', () => {
  it('gets past it, says so on every page, and shows no empty list (Verifies: LOG-R17, LOG-R18, LOG-R113)', async () => {
    await desk.open('/');
    await desk.type('Your name', 'Sol');
    await desk.type('Your password', password);
    await desk.press('Sign in');
    await desk.says('1 record is damaged on the server');
    await desk.says(
      'The server says: The record in place 7, about the document starter, is not as it was written down',
    );
    // The server looks its records through by itself a while after its start; the page tells what it has found by then.
    await expect
      .poll(async () => {
        await desk.open('/device');
        await desk.says(/looked through (yet|on)/);
        return desk.page.getByText(/looked through on .+, not all in order/).count();
      })
      .toBe(1);
    await desk.open('/due');
    await desk.says('The protocol in force (starter, version 1) cannot be read from the records any more');
    await desk.saysNot('Nothing of this kind.');
    await desk.open('/animals');
    await desk.says('Kit 3');
  });
});
