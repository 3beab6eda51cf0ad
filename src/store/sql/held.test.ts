import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { Kysely, SqliteDialect } from 'kysely';
import { afterEach, expect, it } from 'vitest';
import { busyLog } from '../../../test/support/busy-log.js';
import { at } from '../../../test/support/log.js';
import { openStore, storeFile } from '../sqlite/open.js';
import { heldPage } from './held.js';
import type { Database } from './tables.js';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** How the engine finds what the statements of one page ask for, a line for each step. */
async function waysOf(change: (sql: string) => string = (sql) => sql): Promise<string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'roundhand-held-'));
  folders.push(folder);
  const opened = await openStore(folder);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(busyLog().records, at('2026-03-02', '12:00'));
  const { seq } = await opened.value.head();
  await opened.value.close();
  const asked: string[] = [];
  const database = new SqliteDatabase(join(folder, storeFile), { verbose: (sql) => asked.push(String(sql)) });
  const db = new Kysely<Database>({ dialect: new SqliteDialect({ database }) });
  // The same class, whose types this test and the source see in two module systems.
  const page = await heldPage(db as never, { after: 0, since: seq, limit: 1000 });
  expect(page.records.length).toBeGreaterThan(10);
  const ways = [...asked].flatMap((sql) =>
    (database.prepare(`explain query plan ${change(sql)}`).all() as { detail: string }[]).map(({ detail }) => detail),
  );
  database.close();
  return ways;
}

/** A walk over the places up to `since`, whoever they are about. Those behind it are walked: they are few and new. */
const walks = (ways: readonly string[]): string[] =>
  ways.filter((way) => /^SCAN (r|records)\b/.test(way) || /^SEARCH (r|records) .*\(rowid>\? AND rowid</.test(way));

it('a first fetch walks no places of animals that left, whatever their number (Verifies: LOG-R101)', async () => {
  expect(walks(await waysOf())).toEqual([]);
  // Without what keeps the engine from it, it would.
  expect(walks(await waysOf((sql) => sql.replaceAll(' + 0', '').replaceAll('+r.seq', 'r.seq')))).not.toEqual([]);
});
