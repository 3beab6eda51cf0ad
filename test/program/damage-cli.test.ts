import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { describe, it } from 'vitest';
import { openStore, storeFile } from '../../src/store/sqlite/open.js';
import { at } from '../support/log.js';
import { shelterLog } from '../support/shelter-log.js';
import { commandLine, expectSentence } from './support/command-line.js';

const { on } = commandLine();

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

  it('is not taken for a place without a shelter', async () => {
    const data = await damaged('shelter-described');
    expectSentence(await on(data, 'due'), 1, 'cannot be read any more');
    expectSentence(await on(data, 'start', '--port', '0'), 1, 'cannot be read any more');
    rmSync(data, { recursive: true });
  });
});
