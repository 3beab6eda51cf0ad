import { chmodSync, closeSync, openSync } from 'node:fs';
import SqliteDatabase from 'better-sqlite3';
import { no, type Outcome, ok } from '../../core/said.js';
import { oneLine, sqliteTrouble } from '../trouble.js';

/** Milliseconds the engine waits for another program that is writing here; nothing here takes long. */
const engineWait_ms = 5000;

/** What a file beside the records is known by. */
export interface PrivateFile {
  /** Four letters as a number, in the file's header: tells it from other SQLite files. */
  readonly applicationId: number;
  /** Shape of the tables; a file of a later one is left as it is. */
  readonly shape: number;
  readonly tables: string;
}

/** Open, or make, a file in a folder that is there. Says no with one sentence when it will not do. */
export function openPrivateFile<T>(
  file: string,
  of: PrivateFile,
  make: (engine: SqliteDatabase.Database) => T,
): Outcome<T> {
  const troubleOf = sqliteTrouble(file);
  let engine: SqliteDatabase.Database | null = null;
  try {
    // Readable by its owner only, from the first byte on.
    closeSync(openSync(file, 'a', 0o600));
    chmodSync(file, 0o600);
    engine = new SqliteDatabase(file, { timeout: engineWait_ms });
    const ready = prepare(engine, file, of);
    if (ready.ok) return ok(make(engine));
    engine.close();
    return ready;
  } catch (error) {
    engine?.close();
    return { ok: false, why: troubleOf(error).why };
  }
}

function prepare(engine: SqliteDatabase.Database, file: string, of: PrivateFile): Outcome<null> {
  // No write-ahead journal: a name, or a secret, that was written over would live on in it.
  engine.pragma('journal_mode = DELETE');
  engine.pragma('synchronous = FULL');
  // What is deleted is written over with zeros (sqlite.org/pragma.html#pragma_secure_delete).
  engine.pragma('secure_delete = ON');
  // What the engine puts aside while it works must not come to lie in a folder for everybody.
  engine.pragma('temp_store = MEMORY');
  return engine
    .transaction((): Outcome<null> => {
      const { count } = engine.prepare('select count(*) as count from sqlite_schema').get() as { count: number };
      if (count === 0) {
        engine.pragma(`application_id = ${of.applicationId}`);
        engine.pragma(`user_version = ${of.shape}`);
        engine.exec(of.tables);
        return ok(null);
      }
      if (engine.pragma('application_id', { simple: true }) !== of.applicationId) {
        return no('server.store.not-a-store', { file });
      }
      const there = Number(engine.pragma('user_version', { simple: true }));
      if (there > of.shape) return no('server.store.newer-version', { store: there, program: of.shape });
      const check = engine.pragma('quick_check(1)', { simple: true });
      return check === 'ok' ? ok(null) : no('server.store.damaged', { file, detail: oneLine(String(check)) });
    })
    .immediate();
}
