import type { KeptEnvelope } from '../../log/store.js';
import { proves } from '../in-force.js';
import { fromRow, type RecordRow } from './tables.js';

/**
 * A record as whatever is worked out takes it: one that is not as it was written down has nothing to say, so that a number
 * damaged in the file drives no dose. It counts among those that cannot be read.
 */
export function asWritten(row: RecordRow): KeptEnvelope {
  const record = fromRow(row);
  return proves(record, row.before_hash) ? record : { ...record, body: null };
}
