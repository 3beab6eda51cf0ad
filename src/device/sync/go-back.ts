import type { Client } from '../../api/client.js';
import { tellSentAgain } from '../../log/commands/shelter.js';
import { type Cursor, type Db, logStart, readCursor, readMeta, writeMeta } from '../db.js';
import { sendHeldAgain } from '../photos/held.js';
import type { LocalStore } from '../store/store.js';
import type { Reach } from './reach.js';

/** A record on this device, with the place and hash it had in the log that was read; null when it was not seen there. */
interface Stood {
  readonly id: string;
  readonly deviceSeq: number;
  readonly at: Cursor | null;
}

/**
 * The server's log is not the one this device has read from: its records were put back from an older copy, and may have
 * grown since. Finds the last place up to which both agree (a hash stands for everything before it), marks all that the
 * device holds beyond it as unsent, whoever wrote it, and goes on reading from there. The desk is told by a record.
 *
 * Sending a record that the server has changes nothing, so it does not matter how many devices do this, or how often.
 */
export async function goBack(store: LocalStore, client: Client, now: () => string): Promise<Reach> {
  const { db } = store;
  const had = await readCursor(db);
  const held = await whatIsHeld(db);
  const common = await lastInCommon(client, placesOf(held));
  if (!('place' in common)) return common;
  const beyond = held.filter(({ at }) => at === null || at.place > common.place);
  const ids = beyond.map(({ id }) => id);
  await db.transaction('rw', db.records, db.outbox, db.meta, async () => {
    const there = new Set((await db.outbox.bulkGet(ids)).flatMap((row) => row?.id ?? []));
    await db.records
      .where('id')
      .anyOf(ids)
      .modify((record: { seq?: number; hash?: string }) => {
        delete record.seq;
        delete record.hash;
      });
    await db.outbox.bulkPut(
      beyond
        .filter(({ id }) => !there.has(id))
        .map(({ id, deviceSeq, at }) => {
          const row = { id, deviceSeq, state: 'waiting' as const, why: null };
          return at === null ? row : { ...row, stood: at.place };
        }),
    );
    // What was turned away may have been so for want of what the server had lost: it goes again, too.
    await db.outbox.filter((row) => row.state !== 'waiting').modify({ state: 'waiting', why: null });
    await writeMeta(db, 'cursor', common);
    // What left or came back in the places that were lost is not told by what is new.
    await writeMeta(db, 'reconcile', true);
    if ((await readMeta(db, 'since')) !== undefined) await writeMeta(db, 'since', common.place);
    await db.meta.delete('chips');
    await writeMeta(db, 'lotsOld', true);
  });
  await sendHeldAgain(db);
  const told = { after: common.place, hash: common.hash, had: had.place, records: beyond.length };
  // Without somebody at work there is nobody to tell it; the records go all the same.
  await store.append(tellSentAgain(told, now()));
  return { reached: true };
}

async function whatIsHeld(db: Db): Promise<Stood[]> {
  const held: Stood[] = [];
  await db.records.each(({ id, deviceSeq, seq, hash }) => {
    held.push({ id, deviceSeq, at: seq === undefined || hash === undefined ? null : { place: seq, hash } });
  });
  return held;
}

const placesOf = (held: readonly Stood[]): Cursor[] =>
  held.flatMap(({ at }) => at ?? []).sort((a, b) => a.place - b.place);

/** Halves what is left until one place is found: some sixteen questions for fifty thousand records. */
async function lastInCommon(client: Client, places: readonly Cursor[]): Promise<Cursor | Reach> {
  let common = logStart;
  let from = 0;
  let to = places.length;
  while (from < to) {
    const middle = (from + to) >>> 1;
    const one = places[middle];
    if (one === undefined) break;
    const answer = await client.records({ after: one.place, hash: one.hash, limit: 1 });
    if (answer.ok) {
      common = one;
      from = middle + 1;
    } else if (answer.code === 'another-history') to = middle;
    else return { reached: false, code: answer.code };
  }
  return common;
}
