import { type Said, said } from '../core/said.js';
import { hash, noHash } from '../log/hash.js';
import { parseRecord, subjectOf } from '../log/record.js';
import { type KeptEnvelope, type LogStore, StoreTrouble } from '../log/store.js';
import { sha256 } from './sha256.js';

/** What is in force stands in records about these. */
export const inForceTypes = ['shelter', 'section', 'person', 'document'] as const;

/**
 * Look at the records that say what is in force, and at the end of the log: each can be read, and its hash holds. Costs what
 * those records are, however long the log.
 */
export async function checkInForce(store: LogStore): Promise<readonly Said[]> {
  const faults: Said[] = [];
  try {
    for (const record of await store.read({ types: inForceTypes })) {
      const values = { seq: record.seq, what: whatOf(record) };
      if (!(await holds(store, record))) {
        faults.push(said('server.in-force.changed', values));
        continue;
      }
      const parsed = parseRecord(record);
      if (!parsed.ok) faults.push(said('server.in-force.unreadable', { ...values, why: parsed.why }));
    }
    if (!(await endsAsNoted(store))) faults.push(said('server.in-force.end'));
  } catch (error) {
    if (!(error instanceof StoreTrouble) || error.code !== 'damaged') throw error;
    faults.push(error.why);
  }
  return faults;
}

async function holds(store: LogStore, record: KeptEnvelope): Promise<boolean> {
  const before = record.seq === 1 ? noHash : (await at(store, record.seq - 1))?.hash;
  return before !== undefined && proves(record, before);
}

/** Whether a record's hash comes out of the hash before it and of what it says. */
export function proves(record: KeptEnvelope, before: string): boolean {
  try {
    return hash(before, record, sha256) === record.hash;
  } catch {
    // What JSON cannot carry was never written by us.
    return false;
  }
}

async function endsAsNoted(store: LogStore): Promise<boolean> {
  const head = await store.head();
  if (head.seq === 0) return (await store.read({ limit: 1 })).length === 0;
  return (
    (await at(store, head.seq))?.hash === head.hash && (await store.read({ after: head.seq, limit: 1 })).length === 0
  );
}

async function at(store: LogStore, seq: number): Promise<KeptEnvelope | undefined> {
  const [record] = await store.read({ after: seq - 1, limit: 1 });
  return record?.seq === seq ? record : undefined;
}

function whatOf(record: KeptEnvelope): Said {
  const { type, id } = subjectOf(record);
  // No other types were asked for.
  return said(`server.in-force.${type as (typeof inForceTypes)[number]}`, { id });
}
