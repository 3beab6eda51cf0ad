import type { Animal } from '../core/animal/animal.js';
import { type CalendarDate, dayOfInstant } from '../core/calendar.js';
import { derived } from '../core/derived.js';
import type { RecordId } from '../core/ids.js';
import type { DueItem } from '../core/protocol/due.js';
import type { Said } from '../core/said.js';
import { type LogRecord, parseRecord } from '../log/record.js';
import type { KeptEnvelope } from '../log/store.js';
import { type UnreadRecord, unreadOf } from '../log/unread.js';
import type { Facts } from '../log/views/facts.js';
import { ownedFlags } from '../log/views/flags.js';
import { flagRow, lotRow, personRows, type ReadTable, roundRow, rowsOfAnimal, sectionRows } from '../log/views/rows.js';
import { noLines, noUse } from '../log/views/sums.js';
import { applyToWorld, dueIn, emptyWorld, factsIn, sumsIn, type World } from '../log/views/world.js';
import { keyText, type Row, rowText, tableNames } from './read-tables.js';

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
  const put = ({ table, key, row }: Placed): void => {
    tables[table].set(key, row);
  };
  for (const animal of world.animals.values()) for (const one of placedOf(world, animal, today)) put(one);
  for (const id of [...world.animals.keys(), ...world.unknown])
    for (const one of factsPlaced(factsIn(world, id))) put(one);
  const { shelter } = world;
  const sums = sumsIn(world);
  const rows = {
    sections: sectionRows(shelter),
    people: personRows(shelter),
    lots: [...shelter.lots.values()].map((lot) => lotRow(lot, sums.lots.get(lot.id) ?? noUse)),
    rounds: [...shelter.rounds.values()].map((round) => roundRow(round, sums.rounds.get(round.id) ?? noLines)),
    flags: ownedFlags(world, today).map(({ owner, flag }) => flagRow(owner, flag)),
  };
  for (const one of placed(rows)) put(one);
  return tables;
}

/** A row with its table and the text of its key. */
interface Placed {
  readonly table: ReadTable;
  readonly key: string;
  readonly row: Row;
}

function placed(tables: Partial<Record<ReadTable, readonly object[]>>): Placed[] {
  return Object.entries(tables).flatMap(([name, rows]) => {
    const table = name as ReadTable;
    return rows.map((row) => ({ table, key: keyText(table, row as Row), row: row as Row }));
  });
}

/**
 * An animal's rows come from its fold, its records and what is due for it, and from nothing else: one append costs what
 * it touches, and unchanged rows need no comparing.
 */
const rowsPlaced = derived((animal: Animal, records: readonly LogRecord[], due: readonly DueItem[]) =>
  placed(rowsOfAnimal(animal, records, due)),
);

const factsPlaced = derived((facts: Facts) => placed({ ...facts }));

const placedOf = (world: World, animal: Animal, today: CalendarDate): readonly Placed[] =>
  rowsPlaced(animal, world.bySubject.get(`animal:${animal.id}`) ?? [], dueIn(world, animal, today));

export const emptyTables = (): Record<ReadTable, Map<string, Row>> =>
  Object.fromEntries(tableNames.map((table) => [table, new Map<string, Row>()])) as Record<ReadTable, Map<string, Row>>;

export interface Change {
  readonly table: ReadTable;
  /** Rows to write, new or changed. */
  readonly put: readonly Row[];
  /** Rows to take away. */
  readonly remove: readonly Row[];
}

/** What has to be written so that the tables `before` become `after`. */
export function changesBetween(before: Tables, after: Tables): Change[] {
  return tableNames.map((table) => {
    const put: Row[] = [];
    for (const [key, row] of after[table]) {
      const old = before[table].get(key);
      if (old === row) continue;
      if (old === undefined || rowText(table, old) !== rowText(table, row)) put.push(row);
    }
    const remove = [...before[table]].filter(([key]) => !after[table].has(key)).map(([, row]) => row);
    return { table, put, remove };
  });
}

/** How the rows that are there differ from the rows that should be there. */
export function compareTables(there: Tables, should: Tables) {
  return tableNames.map((table) => {
    let different = 0;
    let missing = 0;
    for (const [key, row] of should[table]) {
      const other = there[table].get(key);
      if (other === undefined) missing += 1;
      else if (rowText(table, other) !== rowText(table, row)) different += 1;
    }
    const extra = [...there[table].keys()].filter((key) => !should[table].has(key)).length;
    return { table, rows: there[table].size, missing, extra, different };
  });
}
