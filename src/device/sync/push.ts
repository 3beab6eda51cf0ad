import type { Client } from '../../api/client.js';
import type { Said } from '../../core/said.js';
import { isAnimalRecord } from '../../log/record.js';
import { type Db, readCursor } from '../db.js';
import type { Reach } from './reach.js';

/** Records in one sending: small enough for a poor line, and far below what the server takes unless there are many documents. */
const usual = 100;

/**
 * Send what waits, in the order it was written down. Sending the same record twice changes nothing, so a batch whose
 * answer was lost is simply sent again. Records that the server turns away stay here, marked, with its reason.
 */
export async function push(db: Db, client: Client): Promise<Reach> {
  await db.transaction('rw', db.records, db.outbox, () => waitAgain(db));
  let batch = usual;
  for (;;) {
    const waiting = (await db.outbox.orderBy('deviceSeq').toArray())
      .filter((row) => row.state === 'waiting')
      .sort((a, b) => (a.stood ?? Number.MAX_SAFE_INTEGER) - (b.stood ?? Number.MAX_SAFE_INTEGER))
      .slice(0, batch);
    if (waiting.length === 0) return { reached: true };
    const kept = await db.records.bulkGet(waiting.map((row) => row.id));
    const records = waiting.flatMap(({ own }, index) => own ?? kept[index] ?? []);
    const answer = await client.append({ records });
    if (!answer.ok) {
      // Documents can make a batch larger than the server takes; smaller ones go through.
      if (answer.code !== 'request-too-large' || batch === 1) return { reached: false, code: answer.code };
      batch = Math.ceil(batch / 2);
      continue;
    }
    const { outcomes } = answer.value;
    const { place } = await readCursor(db);
    await db.transaction('rw', db.outbox, async () => {
      for (const outcome of outcomes) {
        const record = records[outcome.index];
        if (record === undefined) continue;
        // What stands where this device has read already will not come again; of an animal that left it never came.
        const seen = kept.find((one) => one?.id === record.id)?.seq !== undefined || !isAnimalRecord(record);
        if (outcome.outcome === 'already-there' && (outcome.seq ?? 0) <= place && seen)
          await db.outbox.delete(record.id);
        else if (outcome.outcome === 'stored' || outcome.outcome === 'already-there')
          await db.outbox.update(record.id, { state: 'sent', why: null });
        else {
          const why: Said = (outcome.problem?.said as Said | undefined) ?? { say: 'parts.turned-away' };
          await db.outbox.update(record.id, { state: 'turned-away', why });
        }
      }
    });
    if (outcomes.length === 0) return { reached: false, code: 'not-understood' };
    if (waiting.length < batch) return { reached: true };
  }
}

/** What waited for somebody to sign in, or to give the password, goes again each time: they may have. */
const forSomebody = ['people.hand-away', 'people.not-fresh'];

/** What takes back a record that the server did not have yet goes again once that record has been seen in the log. */
async function waitAgain(db: Db): Promise<void> {
  await db.outbox
    .filter(({ why }) => why !== null && forSomebody.includes(why.say))
    .modify({ state: 'waiting', why: null });
  const turnedAway = await db.outbox
    .filter(({ why }) => why?.say === 'server.problem.record-corrects-unknown')
    .toArray();
  for (const { id } of turnedAway) {
    const corrects = (await db.records.get(id))?.corrects;
    const there = corrects === undefined ? undefined : await db.records.get(corrects);
    if (there?.seq !== undefined) await db.outbox.update(id, { state: 'waiting', why: null });
  }
}
