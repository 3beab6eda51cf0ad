import { rmSync } from 'node:fs';
import SqliteDatabase from 'better-sqlite3';
import { Kysely, SqliteDialect } from 'kysely';
import { said } from '../../core/said.js';
import { chainStart, verifyChain } from '../../log/hash.js';
import { StoreTrouble } from '../../log/store.js';
import { sha256 } from '../sha256.js';
import { type Database, fromRow } from '../sql/tables.js';
import { oneLine, sqliteTrouble } from '../trouble.js';

/**
 * Copy a store that is in use to one file, through the engine: a plain copy of the main file lacks what is still in the
 * journal beside it. The copy is then opened and looked through; one that is not whole is removed, and said so.
 */
export async function backUp(engine: SqliteDatabase.Database, to: string): Promise<void> {
  const troubleOf = sqliteTrouble(to);
  try {
    await engine.backup(to);
    const copy = new SqliteDatabase(to);
    try {
      // One file that stands on its own, without a journal beside it.
      copy.pragma('journal_mode = DELETE');
      await lookThrough(copy, to);
    } finally {
      copy.close();
    }
  } catch (error) {
    rmSync(to, { force: true });
    throw troubleOf(error);
  }
}

async function lookThrough(copy: SqliteDatabase.Database, file: string): Promise<void> {
  const check = copy.pragma('integrity_check(1)', { simple: true });
  if (check !== 'ok') throw damaged(file, oneLine(String(check)));
  const db = new Kysely<Database>({ dialect: new SqliteDialect({ database: copy }) });
  const head = await db.selectFrom('log_head').selectAll().executeTakeFirstOrThrow();
  let end = chainStart;
  for (;;) {
    const page = await db
      .selectFrom('records')
      .selectAll()
      .where('seq', '>', end.seq)
      .orderBy('seq')
      .limit(500)
      .execute();
    if (page.length === 0) break;
    const report = verifyChain(page.map(fromRow), end, sha256);
    if (!report.whole) throw damaged(file, `${report.fault} ${report.brokenAt}`);
    end = report.end;
  }
  if (end.seq !== head.seq || end.hash !== head.hash) throw damaged(file, `${end.seq}/${head.seq}`);
}

const damaged = (file: string, detail: string): StoreTrouble =>
  new StoreTrouble('damaged', said('server.store.damaged', { file, detail }));
