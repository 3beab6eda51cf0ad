import { createHash } from 'node:crypto';
import { DummyDriver, Kysely, SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler, type Transaction } from 'kysely';
import { no, type Outcome, ok } from '../core/said.js';
import { noHash } from '../log/hash.js';
import { migrations as released } from './migrations/index.js';
import type { Migration } from './migrations/migration.js';
import type { Database } from './sql/tables.js';

/** Compiles without a database, always in the same dialect, so that one manifest holds for every kind of store. */
const compiler = new Kysely<unknown>({
  dialect: {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  },
});

export function checksumOf(migration: Migration): string {
  const text = migration.statements(compiler.schema).map((statement) => statement.compile().sql);
  return createHash('sha256').update(text.join(';\n')).digest('hex');
}

/**
 * Bring a store to this program's shape, inside the caller's transaction. Says no, and changes nothing, when the store
 * is of a newer program or a step was not what this program knows under its number.
 */
export async function migrate(
  trx: Transaction<Database>,
  steps: readonly Migration[] = released,
): Promise<Outcome<number>> {
  await trx.schema
    .createTable('store_migrations')
    .ifNotExists()
    .addColumn('number', 'integer', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('checksum', 'text', (column) => column.notNull())
    .execute();
  const done = await trx.selectFrom('store_migrations').selectAll().orderBy('number').execute();
  if (done.length > steps.length) {
    return no('server.store.newer-version', { store: done.length, program: steps.length });
  }
  for (const [index, step] of done.entries()) {
    const known = steps[index];
    if (known === undefined || step.number !== known.number || step.checksum !== checksumOf(known)) {
      return no('server.store.changed-by-hand', { number: step.number, name: step.name });
    }
  }
  for (const step of steps.slice(done.length)) {
    for (const statement of step.statements(trx.schema)) await statement.execute();
    const { number, name } = step;
    await trx
      .insertInto('store_migrations')
      .values({ number, name, checksum: checksumOf(step) })
      .execute();
  }
  if (done.length === 0) {
    const start = { one: 1, seq: 0, hash: noHash, received_at: null, turn: 0, rows_on: null, rows_shape: '' };
    await trx.insertInto('log_head').values(start).execute();
  }
  return ok(steps.length);
}
