import type { Animal } from '../core/animal/animal.js';
import type { CalendarDate } from '../core/calendar.js';
import { derived, growing } from '../core/derived.js';
import type { AnimalId } from '../core/ids.js';
import { type Raised, withAnswer } from '../log/flag.js';
import { flagsOfAnimal, ownerOf } from '../log/flags/flags.js';
import type { AnimalRows, AnimalTable, ReadTable } from '../log/read-rows.js';
import { type LogRecord, parseRecord } from '../log/record.js';
import { type Facts, type FactTable, factsOf, noRounds, roundsPlanning } from '../log/rows/facts.js';
import { flagRow, rowsOfAnimal } from '../log/rows/rows.js';
import { settled } from '../log/settled-time.js';
import type { KeptEnvelope, LogStore } from '../log/store.js';
import { dayOf, foldAnimal } from '../log/views/animal.js';
import { dueOf } from '../log/views/due/due.js';
import type { Ground } from '../log/views/ground.js';
import type { FlagAnswer, Shelter } from '../log/views/shelter.js';
import { keyText, type Row } from './read-tables.js';

export type OwnTable = AnimalTable | FactTable;

/** Tables whose rows belong to one animal, in the order in which they are written. One that is left out does not compile. */
const ownedByAnimals: Readonly<Record<OwnTable, true>> = {
  animals: true,
  due_items: true,
  given: true,
  weighings: true,
  tests: true,
  chips: true,
  chip_numbers: true,
  lot_uses: true,
  round_animals: true,
  chip_readings: true,
  fast_clocks: true,
  run_holders: true,
  number_holders: true,
};
export const ownTables = Object.keys(ownedByAnimals) as readonly OwnTable[];

/** Rows by the text of their key. */
export type Rows = ReadonlyMap<string, Row>;
export type OwnRows = Readonly<Record<OwnTable, Rows>>;

/** What an animal's rows are worked out from besides its own records. */
export interface Now {
  readonly shelter: Shelter;
  readonly ground: Ground;
  readonly today: CalendarDate;
}

/** The records of one animal, as the folds count them, and how many of them cannot be read. */
export interface OwnRecords {
  readonly id: AnimalId;
  readonly records: readonly LogRecord[];
  readonly unread: number;
}

/** One animal with all of its rows but its flags. */
export interface Folded extends OwnRecords {
  readonly animal: Animal | null;
  readonly rows: OwnRows;
  /** No later day changes anything: see `isAtRest`. */
  readonly atRest: boolean;
}

export function readOwn(id: AnimalId, kept: readonly KeptEnvelope[]): OwnRecords {
  const parsed = kept.map((record) => parseRecord(record));
  const records = parsed.flatMap((one) => (one.ok ? [settled(one.value)] : []));
  return { id, records, unread: parsed.length - records.length };
}

/** What one animal's records say, as far as they are as they were written down. */
export const ownRecords = async (store: LogStore, id: AnimalId): Promise<OwnRecords> =>
  readOwn(id, await store.read({ subject: `animal:${id}`, trusted: true }));

export function foldOwn(own: OwnRecords, { shelter, ground, today }: Now): Folded {
  const { id, records } = own;
  const animal = foldAnimal(id, records, ground);
  const facts = factsOf(id, animal, records, ground, roundsPlanning(shelter.rounds).get(id) ?? noRounds);
  return {
    ...own,
    animal,
    rows: rowsOfSubject(animal, records, ground, today, facts),
    atRest: isAtRest(animal, records, today),
  };
}

export function rowsOfSubject(
  animal: Animal | null,
  records: readonly LogRecord[],
  ground: Ground,
  today: CalendarDate,
  facts: Facts,
): OwnRows {
  const own = animal === null ? none : rowsOfAnimal(animal, records, dueOf(animal, ground, today));
  const all: Readonly<Record<OwnTable, readonly object[]>> = { ...own, ...facts };
  const keyed = ownTables.map((table) => [table, keyedOnce(all[table], table)] as const);
  return Object.fromEntries(keyed) as unknown as OwnRows;
}

const none: AnimalRows = {
  animals: [],
  due_items: [],
  given: [],
  weighings: [],
  tests: [],
  chips: [],
  chip_numbers: [],
};

export const keyedRows = (table: ReadTable, rows: readonly object[]): Rows =>
  new Map(rows.map((row) => [keyText(table, row as Row), row as Row]));

/** As many tables as there are, and then some. */
const manyTables = 40;

/** A row of what stays as it is has the same key as ever. */
const keyOf = derived((row: Row, table: ReadTable): string => keyText(table, row));

/** The same for a list that is asked about again and again, and grows. */
const keyedOnce = growing<object, [ReadTable], Rows>(
  (rows, table) => new Map(rows.map((row) => [keyOf(row as Row, table), row as Row])),
  (before, { more }, _rows, table) => {
    const keyed = new Map(before);
    for (const row of more) keyed.set(keyOf(row as Row, table), row as Row);
    // Of two with one key the last one in the list counts.
    return keyed.size === before.size + more.length ? keyed : undefined;
  },
  manyTables,
);

/** The rows of an animal's flags. `isOnAnother` says whether another animal has a chip's number on record. */
export function flagRowsOf(
  { id, animal, records }: Folded,
  { shelter, ground, today }: Now,
  isOnAnother: (number: string) => boolean,
): Rows {
  const { answers } = shelter;
  const raised = flagsOfAnimal(id, animal, records, { ground, answers, today, isOnAnother });
  const rows = new Map<string, Row>();
  // Of two with one key the last one counts.
  for (const flag of raised) {
    const { key, row } = rowOfFlag(flag, answers.get(flag.key) ?? null, id);
    rows.set(key, row);
  }
  return rows;
}

const rowOfFlag = derived((flag: Raised, answer: FlagAnswer | null, animal: AnimalId) => {
  const row: Row = { ...flagRow(ownerOf.animal(animal), withAnswer(flag, answer ?? undefined)) };
  return { key: keyText('flags', row), row };
});

/**
 * Whether an animal's rows are the same on every later day: one that was never taken in, or that has left with nothing
 * open that a day could change and nothing on record that lies ahead.
 */
export function isAtRest(animal: Animal | null, records: readonly LogRecord[], today: CalendarDate): boolean {
  if (animal === null) return true;
  return (
    animal.left !== null &&
    animal.left.on <= today &&
    animal.orders.length === 0 &&
    animal.runs.every(({ result }) => result !== 'running' && result !== 'reactive') &&
    animal.observations.every(({ on }) => on <= today) &&
    records.every((record) => dayOf(record) <= today)
  );
}
