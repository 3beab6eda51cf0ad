import type { LogRecord } from '../record.js';
import { effective } from './effective.js';

type Made = Pick<LogRecord, 'device' | 'deviceSeq' | 'happenedAt'>;

/**
 * Whether one record was made after another: on one device by its own count, which no clock can turn back; between two
 * devices, which know nothing of each other, by when it happened.
 */
export const madeAfter = (one: Made, other: Made): boolean =>
  one.device === other.device ? one.deviceSeq > other.deviceSeq : one.happenedAt >= other.happenedAt;

/**
 * The records that stand, in the order in which they were made. A device's own keep its count, whatever its clock did
 * in between; between devices the clocks decide, each never taken to run backwards. A correction stands where the
 * record stood that it corrects.
 *
 *   count  1      2      3 (clock 90 s back)   4
 *   clock  18:29  18:30  18:28:30              18:31
 *   taken  18:29  18:30  18:30                 18:31
 */
export function inDeviceOrder(records: readonly LogRecord[]): LogRecord[] {
  const first = new Map(records.map((record) => [record.id, record]));
  const placed = effective(records).map((record) => ({ record, root: first.get(record.id) ?? record }));
  placed.sort((a, b) => a.root.deviceSeq - b.root.deviceSeq);
  const latest = new Map<string, string>();
  const timed = placed.map(({ record, root }) => {
    const before = latest.get(root.device) ?? '';
    const at = [before, root.happenedAt].sort()[1] ?? before;
    latest.set(root.device, at);
    return { record, root, at };
  });
  return timed
    .sort((a, b) =>
      a.at !== b.at
        ? a.at < b.at
          ? -1
          : 1
        : a.root.device !== b.root.device
          ? a.root.device < b.root.device
            ? -1
            : 1
          : a.root.deviceSeq - b.root.deviceSeq,
    )
    .map(({ record }) => record);
}
