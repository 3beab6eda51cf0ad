import { createHash } from 'node:crypto';
import { type CreateTableBuilder, type Kysely, sql, type Transaction } from 'kysely';
import type { ReadTable } from '../../log/views/rows.js';
import { type Change, emptyTables, type Tables } from '../projection.js';
import { keyText, type Row, readTables, shapeOf, tableNames } from '../read-tables.js';
import type { Database } from './tables.js';

/** Changes whenever the read tables have to be made anew. */
export const shapeChecksum = createHash('sha256').update(JSON.stringify(readTables)).digest('hex');

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

export async function allTables(db: Kysely<Database>): Promise<Tables> {
  const tables = emptyTables();
  for (const table of tableNames) {
    for (const row of await selectRows(db, table)) tables[table].set(keyText(table, row), row);
  }
  return tables;
}
