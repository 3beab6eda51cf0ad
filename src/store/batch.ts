import type { RecordId } from '../core/ids.js';
import { type Arrival, arrivalAt } from '../log/arrival.js';
import { canonical } from '../log/canonical.js';
import { hash } from '../log/hash.js';
import { type LogRecord, parseRecord } from '../log/record.js';
import type { Appended, Head, KeptEnvelope } from '../log/store.js';
import { sha256 } from './sha256.js';

/** What comes of a batch: an answer for each record, and the new ones with their place and hash. */
export interface Settled {
  readonly appended: readonly Appended[];
  readonly fresh: readonly KeptEnvelope[];
  /** When the batch came in, by the clock or by what came in before. */
  readonly at: string;
}

/**
 * Settle a batch against what is there already under the same ids. Pure. Throws, for the whole batch, on a record that
 * cannot be written as canonical JSON.
 */
export function settle(
  batch: readonly LogRecord[],
  there: ReadonlyMap<RecordId, KeptEnvelope>,
  head: Pick<Head, 'seq' | 'hash' | 'receivedAt'>,
  clock: string,
): Settled {
  const arrival = arrivalAt(clock, head.receivedAt);
  const known = new Map(there);
  const fresh: KeptEnvelope[] = [];
  let end = { seq: head.seq, hash: head.hash };
  const appended = batch.map((record): Appended => {
    const before = known.get(record.id);
    if (before !== undefined) {
      return { id: record.id, outcome: sameWords(before, record) ? 'already-there' : 'conflict', seq: before.seq };
    }
    const placed = { ...withoutPlace(record), seq: end.seq + 1, ...arrival };
    const kept: KeptEnvelope = { ...placed, hash: hash(end.hash, placed, sha256) };
    end = { seq: kept.seq, hash: kept.hash };
    known.set(record.id, kept);
    fresh.push(kept);
    return { id: record.id, outcome: 'stored', seq: kept.seq };
  });
  return { appended, fresh, at: arrival.receivedAt };
}

/** Both as this program reads them now, so that an older writing of the same fact is not a conflict. */
function sameWords(kept: KeptEnvelope, sent: LogRecord): boolean {
  const read = parseRecord(kept);
  return read.ok && canonical(withoutPlace(read.value)) === canonical(withoutPlace(sent));
}

function withoutPlace(record: LogRecord): Omit<KeptEnvelope, 'seq' | 'hash' | keyof Arrival> {
  const { seq: _seq, hash: _hash, receivedAt: _receivedAt, serverBehind_ms: _behind, ...own } = record;
  return own;
}
