import type SqliteDatabase from 'better-sqlite3';
import { type Dialect, SqliteDialect } from 'kysely';

/**
 * Kysely's dialect, which rolls back whatever fails. SQLite has done that by itself when the disk was full or could not
 * be written (sqlite.org/lang_transaction.html, section 3): a second time is an error of its own, which would hide the
 * first.
 */
export function sqliteDialect(engine: SqliteDatabase.Database): Dialect {
  const dialect = new SqliteDialect({ database: engine });
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
