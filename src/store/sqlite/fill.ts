import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { dayOfInstant } from '../../core/calendar.js';
import { no, type Outcome, ok } from '../../core/said.js';
import { noHash } from '../../log/hash.js';
import type { KeptEnvelope } from '../../log/store.js';
import { toRow } from '../sql/tables.js';
import { oneLine } from '../trouble.js';
import { openStore, storeFile } from './open.js';

/**
 * Put records, in order, with their places, hashes and times of arrival, into the store of a folder, which has been made and
 * holds none; then work everything out from them. Says no when one cannot be written; the caller takes the file away.
 */
export async function fillStore(
  folder: string,
  records: Iterable<KeptEnvelope> | AsyncIterable<KeptEnvelope>,
  now: string,
): Promise<Outcome<{ readonly records: number; readonly receivedAt: string | null }>> {
  const file = join(folder, storeFile);
  let end = { seq: 0, hash: noHash, receivedAt: null as string | null, zone: 'UTC' };
  const engine = new SqliteDatabase(file);
  try {
    let insert: SqliteDatabase.Statement | null = null;
    engine.exec('begin');
    for await (const record of records) {
      const row = toRow(record, end.hash);
      if (insert === null) {
        const columns = Object.keys(row);
        insert = engine.prepare(`insert into records (${columns}) values (${columns.map((name) => `@${name}`)})`);
      }
      insert.run({ ...row });
      end = { seq: record.seq, hash: record.hash, receivedAt: record.receivedAt, zone: record.zone };
    }
    engine.prepare('update log_head set seq = ?, hash = ?, received_at = ?').run(end.seq, end.hash, end.receivedAt);
    engine.exec('commit');
  } catch (error) {
    return no('server.store.failed', { file, detail: oneLine(error instanceof Error ? error.message : String(error)) });
  } finally {
    engine.close();
  }
  const store = await openStore(folder);
  if (!store.ok) return store;
  try {
    await store.value.rebuild(dayOfInstant(now, end.zone));
    return ok({ records: end.seq, receivedAt: end.receivedAt });
  } finally {
    await store.value.close();
  }
}
