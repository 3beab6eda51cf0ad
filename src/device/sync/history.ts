import type { Client } from '../../api/client.js';
import type { AnimalId } from '../../core/ids.js';
import { type LogRecord, parseRecord } from '../../log/record.js';
import { type Db, damagedAt, readCursor, type Unread } from '../db.js';
import { keep } from './keep.js';
import type { Reach } from './reach.js';

/** All that the server has of one animal, and its clock when it said so. */
export type History = Reach & { readonly records?: readonly LogRecord[]; readonly asOf?: string };

/**
 * Fetch the whole history of an animal that this device does not hold: it came back, or somebody opens it. What is
 * fetched lies beside the records that are kept up to date (`aside`) until the caller has seen whether the animal is here.
 */
export async function fetchHistory(db: Db, client: Client, animal: AnimalId): Promise<History> {
  const { place, hash } = await readCursor(db);
  const answer = await client.animalRecords({ animal, ...(place > 0 ? { after: place, hash } : {}) });
  if (!answer.ok) return { reached: false, code: answer.code };
  const { damaged, serverAt } = answer.value;
  const records: LogRecord[] = [];
  const unread: Unread[] = [];
  for (const raw of answer.value.records) {
    const parsed = parseRecord(raw);
    if (parsed.ok) records.push(parsed.value);
    else unread.push({ id: raw.id, raw });
  }
  await db.transaction('rw', db.records, db.outbox, db.unread, db.aside, async () => {
    await keep(db, records);
    await db.unread.bulkPut(unread);
    await db.unread.bulkPut(damaged.map((raw) => ({ id: damagedAt(raw.seq), raw })));
    await db.aside.put({ subject: `animal:${animal}`, at: serverAt });
    await settleSent(
      db,
      answer.value.records.map(({ id }) => id),
    );
  });
  return { reached: true, records, asOf: serverAt };
}

/** What has come back from the log need not be sent again. */
export const settleSent = (db: Db, ids: readonly string[]): Promise<number> =>
  db.outbox
    .where('id')
    .anyOf(ids)
    .filter(({ state, why, own }) => own === undefined && (state === 'sent' || why?.say.startsWith('people.') === true))
    .delete();
