import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import type { LogRecord } from '../../src/log/record.js';
import { openStore, storeFile } from '../../src/store/sqlite/open.js';

export const pageBytes = 4096;

/** Ways in which a page comes back from a bad disk. Random, but the same at every run. */
export const ways = {
  zeroed: () => Buffer.alloc(pageBytes),
  random: (page: number) => {
    const bytes = Buffer.alloc(pageBytes);
    let state = page * 2654435761;
    for (let at = 0; at < pageBytes; at += 1) {
      state = (Math.imul(state, 1103515245) + 12345) >>> 0;
      bytes[at] = state >>> 16;
    }
    return bytes;
  },
} as const satisfies Record<string, (page: number) => Buffer>;

/** A small store with a few pages that nothing uses, closed, with copies of it to be damaged. */
export async function storeToDamage(records: readonly LogRecord[], now: string) {
  const folder = mkdtempSync(join(tmpdir(), 'roundhand-pages-'));
  const whole = join(folder, 'whole');
  const opened = await openStore(whole);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(records, now);
  await opened.value.close();
  const file = join(whole, storeFile);
  const engine = new SqliteDatabase(file);
  engine.exec('create table scratch (text)');
  engine.prepare('insert into scratch values (?)').run('x'.repeat(3 * pageBytes));
  engine.exec('drop table scratch');
  const recordsOn = pagesOfRecords(engine);
  engine.close();
  const bytes = readFileSync(file);
  let copies = 0;
  const fresh = (): string => {
    copies += 1;
    return join(folder, `copy-${copies}`);
  };
  return {
    whole,
    pages: bytes.length / pageBytes,
    /** Places in the log of the records that have a part on a page. */
    recordsOn: (page: number): readonly number[] => recordsOn.get(page) ?? [],
    fresh,
    /** A copy of the store with one page overwritten. */
    damaged: (page: number, by: Buffer): string => {
      const to = fresh();
      mkdirSync(to);
      copyFileSync(file, join(to, storeFile));
      const changed = Buffer.from(bytes);
      by.copy(changed, (page - 1) * pageBytes);
      writeFileSync(join(to, storeFile), changed);
      return to;
    },
    dispose: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** By the engine's own table of pages (sqlite.org/dbstat.html): leaves in order, and the pages that long rows run over. */
function pagesOfRecords(engine: SqliteDatabase.Database): ReadonlyMap<number, readonly number[]> {
  const pages = engine
    .prepare<[], { path: string; pageno: number; pagetype: string; ncell: number }>(
      `select path, pageno, pagetype, ncell from dbstat where name = 'records' order by path`,
    )
    .all();
  const on = new Map<number, number[]>();
  const firstOf = new Map<string, number>();
  let seq = 1;
  for (const { path, pageno, ncell } of pages.filter(({ pagetype }) => pagetype === 'leaf')) {
    firstOf.set(path, seq);
    on.set(
      pageno,
      Array.from({ length: ncell }, (_, index) => seq + index),
    );
    seq += ncell;
  }
  for (const { path, pageno } of pages.filter(({ pagetype }) => pagetype === 'overflow')) {
    const [, leaf = '', cell = ''] = /^(.*\/)([0-9a-f]+)\+/.exec(path) ?? [];
    on.set(pageno, [(firstOf.get(leaf) ?? 0) + Number.parseInt(cell, 16)]);
  }
  return on;
}
