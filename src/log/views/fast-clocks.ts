import { type CalendarDate, dayOfInstant } from '../../core/calendar.js';
import type { FastClockRow } from '../read-rows.js';
import type { LogRecord } from '../record.js';
import { stampedAhead_ms } from '../settled-time.js';

/**
 * The first record of each device and day that its measured clock has put right; the earliest, whatever came first.
 * `animal` is whose records these are, empty for those that are about none.
 */
export function fastClocks(animal: string, records: readonly LogRecord[]): FastClockRow[] {
  const first = new Map<string, FastClockRow>();
  for (const record of records) {
    if (record.said?.by !== 'clock') continue;
    const { device, id, happenedAt: at, by } = record;
    const on: CalendarDate = dayOfInstant(at, record.zone);
    const row = { device, on, animal, record: id, at, ahead_ms: stampedAhead_ms(record), by };
    const key = JSON.stringify([device, on]);
    const before = first.get(key);
    if (before === undefined || isBefore(row, before)) first.set(key, row);
  }
  return [...first.values()];
}

export const isBefore = (a: FastClockRow, b: FastClockRow): boolean =>
  a.at < b.at || (a.at === b.at && a.record < b.record);
