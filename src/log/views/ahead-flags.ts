import { dayOfInstant } from '../../core/calendar.js';
import type { Role } from '../../core/people.js';
import { type Said, type SayValue, said } from '../../core/said.js';
import { isAnimalRecord, type LogRecord, subjectOf } from '../record.js';
import { stampedAhead_ms } from '../settled-time.js';
import { effective } from './effective.js';
import { type Raised, writerOf } from './flag.js';
import { personName, type Shelter } from './shelter.js';
import type { World } from './world.js';

const desk: readonly Role[] = ['supervisor'];
const minute_ms = 60_000;
const hour_ms = 60 * minute_ms;

/** Whether a record counts from when it came in, because it was stamped later than that. */
export const countsFromArrival = (record: LogRecord): boolean => record.said?.by === 'arrival';

/** What the flag of such a record says: how far ahead, by which device, and from when it counts. */
export const aheadValues = (record: LogRecord): Readonly<Record<string, SayValue>> => ({
  ahead: span(stampedAhead_ms(record)),
  device: record.device,
  at: { instant: record.happenedAt },
});

function span(ms: number): Said {
  if (ms < 2 * hour_ms) return said('flag.ahead.minutes', { n: Math.round(ms / minute_ms) });
  if (ms < 48 * hour_ms) return said('flag.ahead.hours', { n: Math.round(ms / hour_ms) });
  return said('flag.ahead.days', { n: Math.round(ms / (24 * hour_ms)) });
}

/** Records about people, documents, sections, lots and rounds that were stamped ahead, and devices that knew they were fast. */
export function aheadFlags(world: World): Raised[] {
  const flags: Raised[] = [];
  const fast = new Map<string, LogRecord>();
  for (const records of world.bySubject.values()) {
    if (!records.some((record) => record.said !== undefined)) continue;
    for (const record of records) noteFast(fast, record);
    if (records.some(isAnimalRecord)) continue;
    for (const record of effective(records)) if (countsFromArrival(record)) flags.push(ahead(record, world.shelter));
  }
  return [...flags, ...[...fast.values()].map(clockFast)];
}

const ahead = (record: LogRecord, shelter: Shelter): Raised => ({
  ...about('stamped-ahead', record.id, record),
  about: record.id,
  why: said('flag.stamped-ahead.of', { ...aheadValues(record), what: whatOf(record, shelter) }),
  ...writerOf(record),
});

function whatOf(record: LogRecord, shelter: Shelter): Said {
  const { type, id } = subjectOf(record);
  const name =
    type === 'person'
      ? personName(shelter, id)
      : (shelter.sections.find((one) => type === 'section' && one.id === id)?.name ??
        [...shelter.lots.values()].find((one) => type === 'lot' && one.id === id)?.lotText ??
        '');
  return said(`flag.ahead.${type}`, { name });
}

/** The first record of a device and day that its measured clock has put right; the earliest, whatever came first. */
function noteFast(fast: Map<string, LogRecord>, record: LogRecord): void {
  if (record.said?.by !== 'clock') return;
  const key = `${record.device}:${dayOfInstant(record.happenedAt, record.zone)}`;
  const before = fast.get(key);
  const earlier = before === undefined || record.happenedAt < before.happenedAt;
  if (earlier || (record.happenedAt === before.happenedAt && record.id < before.id)) fast.set(key, record);
}

function clockFast(record: LogRecord): Raised {
  const on = dayOfInstant(record.happenedAt, record.zone);
  const values = { ahead: span(stampedAhead_ms(record)), device: record.device, date: { date: on } };
  return { ...about('clock-fast', `${record.device}:${on}`, record), why: said('flag.clock-fast', values) };
}

const about = (code: string, key: string, record: LogRecord): Omit<Raised, 'why'> => ({
  key: `${code}:${key}`,
  code,
  severity: 'attention',
  animal: null,
  about: null,
  raisedAt: record.happenedAt,
  for: desk,
  by: record.by,
});
