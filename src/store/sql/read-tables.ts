import { createHash } from 'node:crypto';
import { type CreateTableBuilder, type Kysely, sql, type Transaction } from 'kysely';
import type { ReadTable } from '../../log/read-rows.js';
import { type Row, readTables, shapeOf, tableNames } from '../read-tables.js';
import type { Rows } from '../subject.js';
import { inGroups, inPages, run } from './compiled.js';
import type { Database, FoldRow } from './tables.js';

/** The table of where each animal's rows stand (tables.ts), beside its key. */
const foldColumns = {
  in_care: 'integer',
  at_rest: 'integer',
  unread: 'integer',
  rows_on: 'text',
  ground: 'text',
} as const satisfies Readonly<Record<Exclude<keyof FoldRow, 'animal'>, 'text' | 'integer'>>;

/** Changes whenever the read tables have to be made anew. */
export const shapeChecksum = createHash('sha256')
  .update(JSON.stringify([readTables, foldColumns]))
  .digest('hex');

/**
 * The same database seen without the types of its read tables, for statements that are built from their shapes. The
 * shapes are checked against the types where they are written down.
 */
type Loose = Kysely<Record<string, Record<string, string | number | null>>>;
const loosely = (db: Kysely<Database>): Loose => db as unknown as Loose;

/** Throw the read tables away and make them anew, empty. */
export async function makeReadTables(trx: Transaction<Database>): Promise<void> {
  for (const table of tableNames.toReversed()) await trx.schema.dropTable(table).ifExists().execute();
  await trx.schema.dropTable('animal_folds').ifExists().execute();
  let folds = trx.schema.createTable('animal_folds').addColumn('animal', 'text', (column) => column.primaryKey());
  for (const [name, type] of Object.entries(foldColumns)) {
    folds = folds.addColumn(name as keyof typeof foldColumns, type, (column) => column.notNull());
  }
  await folds.execute();
  for (const table of tableNames) {
    const { columns, key, belongsTo, indexes = [] } = shapeOf(table);
    let builder: CreateTableBuilder<string, string> = trx.schema.createTable(table);
    for (const [name, column] of Object.entries(columns)) {
      builder = builder.addColumn(name, column.type, (definition) => (column.null ? definition : definition.notNull()));
    }
    builder = builder.addPrimaryKeyConstraint(`${table}_key`, [...key]);
    if (belongsTo !== undefined) {
      const { column, table: owner } = belongsTo;
      builder = builder.addForeignKeyConstraint(`${table}_${column}`, [column], owner, [column], (constraint) =>
        // Rows are written table by table; they have to fit together when the transaction ends.
        constraint.deferrable().initiallyDeferred(),
      );
    }
    await builder.execute();
    for (const names of indexes) {
      await trx.schema
        .createIndex(`${table}_${names.join('_')}`)
        .on(table)
        .columns([...names])
        .execute();
    }
  }
}

export interface Change {
  readonly table: ReadTable;
  /** Rows to write, new or changed. */
  readonly put: readonly Row[];
  /** Rows to take away. */
  readonly remove: readonly Row[];
}

const nothing: readonly Row[] = [];

/** What has to be written so that some rows of a table become others. */
export function changeBetween(table: ReadTable, before: Rows, after: Rows): Change {
  if (before === after) return { table, put: nothing, remove: nothing };
  const columns = Object.keys(shapeOf(table).columns);
  const put: Row[] = [];
  const remove: Row[] = [];
  let there = 0;
  after.forEach((row, key) => {
    const old = before.get(key);
    if (old !== undefined) there += 1;
    if (old === row) return;
    if (old === undefined || columns.some((one) => (old[one] ?? null) !== (row[one] ?? null))) put.push(row);
  });
  // Each of those that were there is there still.
  if (there === before.size) return { table, put, remove };
  for (const [key, row] of before) if (!after.has(key)) remove.push(row);
  return { table, put, remove };
}

export async function writeChanges(db: Kysely<Database>, changes: readonly Change[]): Promise<void> {
  for (const { table, put, remove } of changes) {
    if (remove.length > 0) await removeRows(db, table, remove);
    if (put.length > 0) await putRows(db, table, put);
  }
}

async function removeRows(db: Kysely<Database>, table: ReadTable, rows: readonly Row[]): Promise<void> {
  const { key } = shapeOf(table);
  const deleting = () => {
    let statement = loosely(db).deleteFrom(table);
    for (const column of key) statement = statement.where(column, '=', '');
    return statement;
  };
  for (const row of rows) await run(db, `delete from ${table}`, deleting, valuesOf(row, key));
}

async function putRows(db: Kysely<Database>, table: ReadTable, rows: readonly Row[]): Promise<void> {
  const { key, columns } = shapeOf(table);
  await insertRows(db, table, Object.keys(columns), rows, key);
}

/**
 * Insert rows; one that is there already under the `key`, when there is one, gets their values. A column that a row does
 * not have is null.
 */
export async function insertRows(
  db: Kysely<Database>,
  table: string,
  columns: readonly string[],
  rows: readonly object[],
  key: readonly string[] = [],
): Promise<void> {
  const others = columns.filter((column) => !key.includes(column));
  for (const some of inGroups(rows)) {
    const inserting = () => {
      const any = Object.fromEntries(columns.map((column) => [column, '']));
      const statement = loosely(db)
        .insertInto(table)
        .values(some.map(() => any));
      if (key.length === 0) return statement;
      return statement.onConflict((conflict) =>
        others.length === 0
          ? conflict.columns([...key]).doNothing()
          : conflict
              .columns([...key])
              .doUpdateSet(Object.fromEntries(others.map((column) => [column, sql.ref(`excluded.${column}`)]))),
      );
    };
    const parameters = some.flatMap((row) => valuesOf(row, columns));
    await run(db, `insert into ${table} ${some.length}`, inserting, parameters);
  }
}

const valuesOf = (row: object, columns: readonly string[]) => columns.map((column) => (row as Row)[column] ?? null);

/** Write where the rows of animals stand. */
export const putFolds = (db: Kysely<Database>, rows: readonly FoldRow[]): Promise<void> =>
  insertRows(db, 'animal_folds', ['animal', ...Object.keys(foldColumns)], rows, ['animal']);

export async function emptyReadTables(db: Kysely<Database>): Promise<void> {
  for (const table of tableNames) await db.deleteFrom(table).execute();
  await db.deleteFrom('animal_folds').execute();
}

export async function selectRows(db: Kysely<Database>, table: ReadTable, where: object = {}): Promise<readonly Row[]> {
  let statement = loosely(db).selectFrom(table).selectAll();
  for (const [column, value] of Object.entries(where)) {
    if (value === undefined) continue;
    statement = value === null ? statement.where(column, 'is', null) : statement.where(column, '=', value);
  }
  for (const column of shapeOf(table).key) statement = statement.orderBy(column);
  return await statement.execute();
}

/** Rows of a table in which a column has one of some values; as many questions as there are pages of values. */
export async function rowsWith(
  db: Kysely<Database>,
  table: ReadTable,
  column: string,
  values: readonly string[],
): Promise<Row[]> {
  const rows: Row[] = [];
  for (const some of inPages(values)) {
    const asking = () => loosely(db).selectFrom(table).selectAll().where(column, 'in', some);
    rows.push(...(await run<Row>(db, `${table} by ${column} ${some.length}`, asking, some)));
  }
  return rows;
}
