import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openStore, storeFile } from '../../src/store/sqlite/open.js';
import { at } from '../support/log.js';
import { shelterLog } from '../support/shelter-log.js';
import { commandLine, expectSentence } from './support/command-line.js';

const { on, run } = commandLine();

async function damaged(kind: string): Promise<string> {
  const data = mkdtempSync(join(tmpdir(), 'roundhand-damage-cli-'));
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(shelterLog(2).records, at('2026-03-02'));
  await opened.value.close();
  const db = new SqliteDatabase(join(data, storeFile));
  db.prepare(`update records set body = '{' where kind = ?`).run(kind);
  db.close();
  return data;
}

describe('damage on the built command line (Verifies: LOG-R18)', () => {
  it('is said by what would list what is due', async () => {
    const data = await damaged('protocol-filed');
    expectSentence(await on(data, 'due'), 1, 'The protocol in force (starter, version 1) cannot be read');
    expectSentence(await on(data, 'export', 'due'), 1, 'The protocol in force (starter, version 1) cannot be read');
    expectSentence(await on(data, 'plan'), 1, 'The protocol in force (starter, version 1) cannot be read');
    rmSync(data, { recursive: true });
  });

  it('is said of a signature as of what it signed (Verifies: LOG-R40)', async () => {
    const data = await damaged('document-signed');
    for (const [command, ...more] of [['due'], ['plan'], ['export', 'due']] as [string, ...string[]][]) {
      const { code, err } = await on(data, command, ...more);
      expect([code, err], command).toEqual([1, expect.stringMatching(/cannot be read any more, so nobody can tell/)]);
    }
    rmSync(data, { recursive: true });
  });

  it('is counted, whatever was damaged (Verifies: LOG-R45)', async () => {
    const data = await damaged('animal-taken-in');
    for (const command of ['due', 'plan']) {
      const { code, err } = await on(data, command);
      expect([code, err]).toEqual([0, '2 records cannot be read (run verify); what depends on them is missing.\n']);
    }
    rmSync(data, { recursive: true });
  });

  it('is said of a file emptied to nothing, and no shelter is begun in it (Verifies: LOG-R42)', async () => {
    const data = await damaged('nothing');
    writeFileSync(join(data, storeFile), '');
    expectSentence(await on(data, 'verify'), 1, 'is damaged (it is empty, 0 bytes long)');
    expectSentence(await on(data, 'start', '--port', '0'), 1, 'is damaged (it is empty, 0 bytes long)');
    rmSync(data, { recursive: true });
  });

  it('is not taken for a place without a shelter', async () => {
    const data = await damaged('shelter-described');
    expectSentence(await on(data, 'due'), 1, 'cannot be read any more');
    expectSentence(await on(data, 'start', '--port', '0'), 1, 'cannot be read any more');
    rmSync(data, { recursive: true });
  });

  it('is no end: what can be read is saved into a new folder, and the rest is named (Verifies: LOG-R116)', async () => {
    const data = await damaged('section-described');
    // What was there before the damage still lies in the file, and would be found: it is written anew without it.
    const db = new SqliteDatabase(join(data, storeFile));
    db.exec('vacuum');
    db.close();
    const to = `${data}-saved`;
    const { code, out, err } = await run(['salvage', '--from', data, '--to', to]);
    expect([code, out]).toEqual([1, `11 records of 13 saved in ${to}; every one of them proved whole by its hash.\n`]);
    expect(err.split('\n')).toEqual([
      '■ Missing: the records in places 5 to 6, about section:nursery and section:quarantine.',
      'Of the numbers that the device phone-a counts its records by, these are not here: 5-6. It may still hold them.',
      'Start the server on the new folder: each device sends again by itself what it holds and what is missing there.',
      '',
    ]);
    expect((await on(to, 'verify')).out).toContain('The chain is unbroken');
    expect((await on(data, 'verify')).code).toBe(1);
    expectSentence(await run(['salvage', '--from', data, '--to', to]), 1, 'There are records in');
    expectSentence(await run(['salvage', '--from', data]), 2, 'Say with --from where the damaged records are');
    const json = JSON.parse((await run(['salvage', '--from', data, '--to', `${to}-2`, '--json'])).out);
    expect(json).toMatchObject({ records: 11, places: 13, endKnown: true, missing: [{ from: 5, to: 6 }] });
    for (const folder of [data, to, `${to}-2`]) rmSync(folder, { recursive: true });
  });
});
