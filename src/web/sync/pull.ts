import type { Client } from '../../api/client.js';
import { canonical } from '../../log/canonical.js';
import { type LogRecord, parseRecord } from '../../log/record.js';
import { type Db, damagedAt, readCursor, readMeta, type Unread, writeMeta } from '../store/db.js';
import type { Reach } from './reach.js';

/**
 * Read what the server has after our place in its log, page by page. Records and the new place are written together,
 * so that a page is never half taken.
 */
export async function pull(
  db: Db,
  client: Client,
  device: string,
  take: (records: readonly LogRecord[]) => void,
  progress: (have: number, all: number) => void = () => undefined,
): Promise<Reach> {
  for (;;) {
    const { place, hash } = await readCursor(db);
    const answer = await client.records({ after: place, ...(place > 0 ? { hash } : {}), limit: 500 });
    if (!answer.ok) return { reached: false, code: answer.code };
    const { records, damaged = [], next, hash: hashThere, head } = answer.value;
    const read: LogRecord[] = [];
    const unread: Unread[] = [];
    for (const raw of records) {
      const parsed = parseRecord(raw);
      if (parsed.ok) read.push(parsed.value);
      else unread.push({ id: raw.id, raw });
    }
    await db.transaction('rw', db.records, db.outbox, db.unread, db.meta, async () => {
      await keep(db, read);
      await db.unread.bulkPut(unread);
      await db.unread.bulkDelete(read.map(({ seq }) => damagedAt(seq ?? 0)));
      await db.unread.bulkPut(damaged.map((raw) => ({ id: damagedAt(raw.seq), raw })));
      await writeMeta(db, 'cursor', { place: next, hash: hashThere });
      const ids = records.map((one) => one.id);
      await db.outbox
        .where('id')
        .anyOf(ids)
        .filter((row) => row.state === 'sent' && row.own === undefined)
        .delete();
      // The server may have written for this device (set-up): our own count goes on after it.
      const own = Math.max(0, ...read.filter((one) => one.device === device).map((one) => one.deviceSeq));
      const seq = await readMeta(db, 'deviceSeq');
      if (own > (typeof seq === 'number' ? seq : 0)) await writeMeta(db, 'deviceSeq', own);
    });
    if (read.length > 0) take(read);
    progress(next, head.seq);
    if (records.length + damaged.length === 0 || next >= head.seq) {
      // Kept by a server that has lost it since: it goes again.
      await db.outbox.filter((row) => row.state === 'sent').modify({ state: 'waiting' });
      await writeMeta(db, 'whole', true);
      return { reached: true };
    }
  }
}

/**
 * Put records of the log into the device's database. One of its own that has not gone through and says something else
 * under the same id goes beside what waits, where people find both: the log's counts, the device's is not lost.
 */
async function keep(db: Db, read: readonly LogRecord[]): Promise<void> {
  const unsent = new Set(await db.outbox.toCollection().primaryKeys());
  for (const record of read) {
    if (!unsent.has(record.id)) continue;
    const own = await db.records.get(record.id);
    if (own !== undefined && own.seq === undefined && !saysTheSame(own, record))
      await db.outbox.update(record.id, { own });
  }
  await db.records.bulkPut(read);
}

/** Where it stands in the log is no part of what a record says. */
const saysTheSame = (a: LogRecord, b: LogRecord): boolean => {
  const said = (one: LogRecord): string =>
    canonical({ ...one, seq: undefined, hash: undefined, receivedAt: undefined });
  return said(a) === said(b);
};

/** Try again what an older version of the program could not read. */
export async function rereadUnread(db: Db, take: (records: readonly LogRecord[]) => void): Promise<void> {
  const rows = await db.unread.toArray();
  const read = rows.flatMap((row) => {
    const parsed = parseRecord(row.raw);
    return parsed.ok ? [parsed.value] : [];
  });
  if (read.length === 0) return;
  await db.transaction('rw', db.records, db.outbox, db.unread, async () => {
    await keep(db, read);
    await db.unread.bulkDelete(read.map((record) => record.id));
  });
  take(read);
}
