import { createHash } from 'node:crypto';
import { type CreateTableBuilder, type Kysely, sql, type Transaction } from 'kysely';
import type { ReadTable } from '../../log/rows/read-rows.js';
import { type Row, readTables, shapeOf, tableNames } from '../read-tables.js';
import type { Rows } from '../subject.js';
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

/** Rows in one statement: under the limit of bound values of every store (SQLite 32 766, PostgreSQL 65 535). */
const rowsAtOnce = 500;

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

/** What has to be written so that some rows of a table become others. */
export function changeBetween(table: ReadTable, before: Rows, after: Rows): Change {
  const columns = Object.keys(shapeOf(table).columns);
  const put = [...after].filter(([key, row]) => {
    const old = before.get(key);
    return old === undefined || (old !== row && columns.some((one) => (old[one] ?? null) !== (row[one] ?? null)));
  });
  const remove = [...before].filter(([key]) => !after.has(key));
  return { table, put: put.map(([, row]) => row), remove: remove.map(([, row]) => row) };
}

export async function writeChanges(db: Kysely<Database>, changes: readonly Change[]): Promise<void> {
  for (const { table, put, remove } of changes) {
    await removeRows(db, table, remove);
    await putRows(db, table, put);
  }
}

async function removeRows(db: Kysely<Database>, table: ReadTable, rows: readonly Row[]): Promise<void> {
  for (const row of rows) {
    let statement = loosely(db).deleteFrom(table);
    for (const column of shapeOf(table).key) statement = statement.where(column, '=', row[column] ?? null);
    await statement.execute();
  }
}

async function putRows(db: Kysely<Database>, table: ReadTable, rows: readonly Row[]): Promise<void> {
  const { key, columns } = shapeOf(table);
  const others = Object.keys(columns).filter((column) => !key.includes(column));
  for (let from = 0; from < rows.length; from += rowsAtOnce) {
    await loosely(db)
      .insertInto(table)
      .values(rows.slice(from, from + rowsAtOnce))
      .onConflict((conflict) =>
        others.length === 0
          ? conflict.columns([...key]).doNothing()
          : conflict
              .columns([...key])
              .doUpdateSet(Object.fromEntries(others.map((column) => [column, sql.ref(`excluded.${column}`)]))),
      )
      .execute();
  }
}

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
  for (let from = 0; from < values.length; from += rowsAtOnce) {
    const some = values.slice(from, from + rowsAtOnce);
    rows.push(...(await loosely(db).selectFrom(table).selectAll().where(column, 'in', some).execute()));
  }
  return rows;
}
