import { canonical } from '../../log/canonical.js';
import type { LogRecord } from '../../log/record.js';
import type { Db } from '../db.js';

/**
 * Put records of the log into the device's database. One of its own that has not gone through and says something else
 * under the same id goes beside what waits, where people find both: the log's counts, the device's is not lost.
 */
export async function keep(db: Db, read: readonly LogRecord[]): Promise<void> {
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
    canonical({ ...one, seq: undefined, hash: undefined, receivedAt: undefined, serverBehind_ms: undefined });
  return said(a) === said(b);
};
