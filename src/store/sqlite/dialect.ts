import type SqliteDatabase from 'better-sqlite3';
import { type Dialect, SqliteDialect } from 'kysely';

/**
 * Kysely's dialect, which rolls back whatever fails. SQLite has done that by itself when the disk was full or could not
 * be written (sqlite.org/lang_transaction.html, section 3): a second time is an error of its own, which would hide the
 * first.
 */
export function sqliteDialect(engine: SqliteDatabase.Database): Dialect {
  const dialect = new SqliteDialect({ database: { prepare: remembering(engine), close: () => engine.close() } });
  return {
    createAdapter: () => dialect.createAdapter(),
    createIntrospector: (db) => dialect.createIntrospector(db),
    createQueryCompiler: () => dialect.createQueryCompiler(),
    createDriver: () => {
      const driver = dialect.createDriver();
      const rollBack = driver.rollbackTransaction.bind(driver);
      driver.rollbackTransaction = async (connection) => {
        if (engine.inTransaction) await rollBack(connection);
      };
      return driver;
    },
  };
}

/** So many statements stay prepared; the one asked for longest ago goes first. */
const mostPrepared = 400;

/** The engine's own statements, prepared once for each text: preparing costs more than most of them. */
function remembering(engine: SqliteDatabase.Database): (sql: string) => SqliteDatabase.Statement {
  const prepared = new Map<string, SqliteDatabase.Statement>();
  return (sql) => {
    const statement = prepared.get(sql) ?? engine.prepare(sql);
    prepared.delete(sql);
    prepared.set(sql, statement);
    const [oldest] = prepared.keys();
    if (prepared.size > mostPrepared && oldest !== undefined) prepared.delete(oldest);
    return statement;
  };
}
