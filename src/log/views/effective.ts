import type { RecordId } from '../../core/ids.js';
import type { LogRecord } from '../record.js';

/**
 * The records of one subject as they stand after corrections, in order of happening.
 *
 * A correction takes the place of what it corrects whatever the clocks of the two devices said, and keeps the first
 * record's id, so that references to it stay good. Of several corrections the last one counts: by position in the log
 * once both are there (one that is not there yet is later), else by when it was written down. A withdrawn record is
 * left out. A correction of something unknown stands on its own.
 */
export function effective(records: readonly LogRecord[]): LogRecord[] {
  const byId = new Map<RecordId, LogRecord>(records.map((record) => [record.id, record]));
  const lastCorrection = new Map<RecordId, LogRecord>();
  const roots: LogRecord[] = [];
  for (const record of records) {
    const root = rootOf(record, byId);
    if (root === record) {
      roots.push(record);
      continue;
    }
    const other = lastCorrection.get(root.id);
    if (other === undefined || isLater(record, other)) lastCorrection.set(root.id, record);
  }
  const standing: LogRecord[] = [];
  for (const root of roots) {
    const last = lastCorrection.get(root.id);
    if (last === undefined) {
      if (root.kind !== 'record-withdrawn') standing.push(root);
    } else if (last.kind !== 'record-withdrawn') {
      standing.push({ ...last, id: root.id });
    }
  }
  return standing.sort(byHappening);
}

export function byHappening(a: LogRecord, b: LogRecord): number {
  if (a.happenedAt !== b.happenedAt) return a.happenedAt < b.happenedAt ? -1 : 1;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** Follows `corrects` to the first record. In a loop, which only a broken device makes, the smallest id is the first. */
function rootOf(record: LogRecord, byId: ReadonlyMap<RecordId, LogRecord>): LogRecord {
  const walked: LogRecord[] = [];
  let at = record;
  while (at.corrects !== undefined) {
    const loop = walked.indexOf(at);
    if (loop >= 0) return walked.slice(loop).reduce((least, one) => (one.id < least.id ? one : least));
    walked.push(at);
    const before = byId.get(at.corrects);
    if (before === undefined) break;
    at = before;
  }
  return at;
}

function isLater(a: LogRecord, b: LogRecord): boolean {
  const seqA = a.seq ?? Number.POSITIVE_INFINITY;
  const seqB = b.seq ?? Number.POSITIVE_INFINITY;
  if (seqA !== seqB) return seqA > seqB;
  if (a.recordedAt !== b.recordedAt) return a.recordedAt > b.recordedAt;
  return a.id > b.id;
}
