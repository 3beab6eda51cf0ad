import type { Animal } from '../core/animal/animal.js';
import { type CalendarDate, dayOfInstant } from '../core/calendar.js';
import { derived } from '../core/derived.js';
import type { RecordId } from '../core/ids.js';
import type { Said } from '../core/said.js';
import { ownedFlags } from '../log/flags/flags.js';
import type { ReadTable } from '../log/read-rows.js';
import { type LogRecord, parseRecord } from '../log/record.js';
import type { Facts } from '../log/rows/facts.js';
import { noUse } from '../log/rows/lot-sum.js';
import { flagRow, lotRow, personRows, roundRow, sectionRows } from '../log/rows/rows.js';
import { noLines } from '../log/rows/sums.js';
import { factsIn, sumsIn } from '../log/rows/sums-in.js';
import type { KeptEnvelope } from '../log/store.js';
import { type UnreadRecord, unreadOf } from '../log/unread.js';
import type { Ground } from '../log/views/ground.js';
import { applyToWorld, emptyWorld, type World } from '../log/views/world.js';
import { type Row, tableNames } from './read-tables.js';
import { keyedRows, type OwnRows, ownTables, rowsOfSubject } from './subject.js';

/** The rows of every read table, by the text of their key. */
export type Tables = Readonly<Record<ReadTable, ReadonlyMap<string, Row>>>;

/** A record that this program cannot read; it is kept and named, and nothing is worked out from it. */
export interface Unreadable {
  readonly seq: number;
  readonly id: RecordId;
  readonly why: Said;
}

/** The log read as far as `seq`, and what it adds up to. A value. */
export interface Projection {
  readonly seq: number;
  readonly world: World;
  readonly unreadable: readonly Unreadable[];
}
export const emptyProjection: Projection = { seq: 0, world: emptyWorld, unreadable: [] };

/** Read on: the next records of the log, in order. */
export function project(before: Projection, records: readonly KeptEnvelope[]): Projection {
  const readable: LogRecord[] = [];
  const unreadable = [...before.unreadable];
  const unread: UnreadRecord[] = [];
  for (const record of records) {
    const parsed = parseRecord(record);
    if (parsed.ok) readable.push(parsed.value);
    else {
      unreadable.push({ seq: record.seq, id: record.id, why: parsed.why });
      unread.push(unreadOf(record));
    }
  }
  const all = unread.length === 0 ? before.world.unread : [...before.world.unread, ...unread];
  return { seq: records.at(-1)?.seq ?? before.seq, world: applyToWorld(before.world, readable, all), unreadable };
}

/** The shelter's day at an instant (UTC ISO text). */
export const dayAt = (world: World, at: string): CalendarDate => dayOfInstant(at, world.shelter.zone);

/**
 * Every row of every read table as of a day. A pure function of the records and the day: this is what "rebuilt to the
 * same bytes" means. Of two rows with one key the last counts.
 */
export function rowsOf(world: World, today: CalendarDate): Tables {
  const tables = emptyTables();
  for (const id of [...world.animals.keys(), ...world.unknown]) {
    const animal = world.animals.get(id) ?? null;
    const own = ownRows(world.bySubject.get(`animal:${id}`) ?? [], animal, world.ground, factsIn(world, id), today);
    for (const table of ownTables) for (const [key, row] of own[table]) tables[table].set(key, row);
  }
  const { shelter } = world;
  const sums = sumsIn(world);
  const rows = {
    sections: sectionRows(shelter),
    people: personRows(shelter),
    lots: [...shelter.lots.values()].map((lot) => lotRow(lot, sums.lots.get(lot.id) ?? noUse)),
    rounds: [...shelter.rounds.values()].map((round) => roundRow(round, sums.rounds.get(round.id) ?? noLines)),
    flags: ownedFlags(world, today).map(({ owner, flag }) => flagRow(owner, flag)),
  };
  for (const [table, all] of Object.entries(rows)) {
    for (const [key, row] of keyedRows(table as ReadTable, all)) tables[table as ReadTable].set(key, row);
  }
  return tables;
}

/**
 * An animal's rows come from its fold, its records, the ground, the day and what it says of more than itself, and from
 * nothing else.
 */
const ownRows = derived(
  (records: readonly LogRecord[], animal: Animal | null, ground: Ground, facts: Facts, today: CalendarDate): OwnRows =>
    rowsOfSubject(animal, records, ground, today, facts),
);

export const emptyTables = (): Record<ReadTable, Map<string, Row>> =>
  Object.fromEntries(tableNames.map((table) => [table, new Map<string, Row>()])) as Record<ReadTable, Map<string, Row>>;
