import { CalendarDate } from '../../core/calendar.js';
import { PersonId } from '../../core/ids.js';
import { type Said, said } from '../../core/said.js';
import { desk, type Raised, writerOf } from '../flag.js';
import type { FastClockRow } from '../read-rows.js';
import { type LogRecord, subjectOf } from '../record.js';
import { stampedAhead_ms } from '../settled-time.js';
import type { Shelter } from '../views/shelter.js';

const minute_ms = 60_000;
const hour_ms = 60 * minute_ms;

/** Whether a record counts from when it came in, because it was stamped later than that. */
export const countsFromArrival = (record: LogRecord): boolean => record.said?.by === 'arrival';

/** What the flag of such a record says: how far ahead, by which device, and from when it counts. */
export const aheadValues = (record: LogRecord) => ({
  ahead: span(stampedAhead_ms(record)),
  device: record.device,
  at: { instant: record.happenedAt },
});

/** A length of time as people say it. */
export function span(ms: number): Said {
  if (ms < 2 * hour_ms) return said('flag.ahead.minutes', { n: Math.round(ms / minute_ms) });
  if (ms < 48 * hour_ms) return said('flag.ahead.hours', { n: Math.round(ms / hour_ms) });
  return said('flag.ahead.days', { n: Math.round(ms / (24 * hour_ms)) });
}

/** Records about people, documents, sections, lots and rounds that were stamped ahead. */
export const aheadFlags = (shelter: Shelter): Raised[] => shelter.late.map((record) => ahead(record, shelter));

const ahead = (record: LogRecord, shelter: Shelter): Raised => ({
  key: `stamped-ahead:${record.id}`,
  code: 'stamped-ahead',
  severity: 'attention',
  animal: null,
  about: record.id,
  raisedAt: record.happenedAt,
  for: desk,
  by: record.by,
  why: said('flag.stamped-ahead.of', { ...aheadValues(record), what: whatOf(record, shelter) }),
  ...writerOf(record),
});

function whatOf(record: LogRecord, shelter: Shelter): Said {
  const { type, id } = subjectOf(record);
  const name =
    type === 'person'
      ? { person: id }
      : (shelter.sections.find((one) => type === 'section' && one.id === id)?.name ??
        [...shelter.lots.values()].find((one) => type === 'lot' && one.id === id)?.lotText ??
        '');
  return type === 'person' || type === 'section' || type === 'lot'
    ? said(`flag.ahead.${type}`, { name })
    : // Of an animal it stands among the animal's own flags.
      said(`flag.ahead.${type === 'animal' ? 'shelter' : type}`);
}

/** A device that knew its clock to be fast, once a day: about its first record of that day. */
export const clockFast = (row: FastClockRow): Raised => ({
  key: `clock-fast:${row.device}:${row.on}`,
  code: 'clock-fast',
  severity: 'attention',
  animal: null,
  about: null,
  raisedAt: row.at,
  for: desk,
  why: said('flag.clock-fast', {
    ahead: span(row.ahead_ms),
    device: row.device,
    date: { date: CalendarDate.parse(row.on) },
  }),
  by: PersonId.parse(row.by),
});

/** Of an animal's records the first that came in while the server's clock lay behind its own log; null when none did. */
export function cameInBehind(records: readonly LogRecord[]): LogRecord | null {
  let first: LogRecord | null = null;
  for (const record of records) {
    if (record.serverBehind_ms === undefined) continue;
    if (first === null || (record.seq ?? 0) < (first.seq ?? 0)) first = record;
  }
  return first;
}

/** What its flag says: by how much, and as come in when it counts. */
export const behindValues = ({ serverBehind_ms, receivedAt, recordedAt }: LogRecord) => ({
  behind: span(serverBehind_ms ?? 0),
  at: { instant: receivedAt ?? recordedAt },
});
