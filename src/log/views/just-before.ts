import { derived, listOf } from '../../core/derived.js';
import type { LogRecord } from '../record.js';
import { effective } from './effective.js';

/**
 * What stood of an animal at the moment of a record, by settled times, whatever a device knew then: as it was known then,
 * and as it is known now where something was put right since. What was taken back afterwards stood at the time all the
 * same. One list where both are the same, so that most of what is asked of it is asked once.
 */
export function stoodBefore(
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  done: LogRecord,
): readonly (readonly LogRecord[])[] {
  const now = listOf(standing.filter((record) => isBefore(record, done)));
  const isLater = ({ corrects, recordedAt }: LogRecord): boolean =>
    corrects !== undefined && recordedAt > done.happenedAt;
  if (!records.some(isLater)) return [now];
  return [listOf(asKnown(records, done.happenedAt).filter((record) => isBefore(record, done))), now];
}

/** Without the corrections that were written down after an instant. */
const asKnown = derived((records: readonly LogRecord[], at: string): readonly LogRecord[] =>
  effective(records.filter(({ corrects, recordedAt }) => corrects === undefined || recordedAt <= at)),
);

/** What was given at the same time stands beside it, not before it. */
const isBefore = (record: LogRecord, done: LogRecord): boolean =>
  record.happenedAt < done.happenedAt ||
  (record.happenedAt === done.happenedAt && record.kind !== 'treatment-given' && record.id !== done.id);
