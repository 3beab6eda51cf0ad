import { existsSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { setTimeout as wait } from 'node:timers/promises';
import SqliteDatabase from 'better-sqlite3';
import { Kysely } from 'kysely';
import { CalendarDate } from '../../core/calendar.js';
import { no, type Outcome, ok } from '../../core/said.js';
import { type LogStore, StoreTrouble } from '../../log/store.js';
import { migrate } from '../migrate.js';
import type { Migration } from '../migrations/migration.js';
import { rebuild } from '../sql/anew.js';
import { makeReadTables, shapeChecksum } from '../sql/read-tables.js';
import { inTurn, sqlStore } from '../sql/store.js';
import type { Database } from '../sql/tables.js';
import { isBusy, sqliteTrouble } from '../trouble.js';
import { backUp } from './backup.js';
import { sqliteDialect } from './dialect.js';
import { checkEngine } from './engine-check.js';
import { type NetworkOf, networkOf, prepareFolder } from './folder.js';
import { whileThere } from './still-there.js';

export const storeFile = 'roundhand.sqlite';

/** Waiting inside the engine stops the whole program, so it is short; longer waits are ours (sqlStore). */
const engineWait_ms = 20;

/** Milliseconds until a checkpoint that failed is tried again. */
const checkpointAgain_ms = 30_000;

/** Tells our files from other SQLite files: 'Rnhd' as a number, in the file's header. */
const applicationId = 0x526e6864;

export interface SqliteStore extends LogStore {
  readonly file: string;
  /** A copy made by the engine while the store is in use, verified after writing. Rejects with a `StoreTrouble`. */
  readonly backUp: (to: string) => Promise<void>;
}

export interface OpenOptions {
  /** Milliseconds to wait for another program that is writing. */
  readonly busy_ms?: number;
  /**
   * Milliseconds after the last append until everything is in the main file too, so that somebody who copies only that
   * file loses nothing older than this.
   */
  readonly checkpoint_ms?: number;
  readonly network?: NetworkOf;
  readonly migrations?: readonly Migration[];
  /** Sees every statement that is sent to the engine, for counting them. */
  readonly watch?: (statement: { readonly sql: string; readonly parameters: readonly unknown[] }) => void;
}

/**
 * Open, or make, the log in a folder. Says no with one sentence when the folder or the file will not do; nothing in
 * the folder is then changed, except that a missing folder has been made.
 */
export async function openStore(folder: string, options: OpenOptions = {}): Promise<Outcome<SqliteStore>> {
  const prepared = prepareFolder(folder, options.network ?? networkOf);
  if (!prepared.ok) return prepared;
  const file = join(prepared.value, storeFile);
  const troubleOf = sqliteTrouble(file);
  const busy_ms = options.busy_ms ?? 5000;
  if (await staysEmpty(file, busy_ms)) {
    return no('server.store.damaged', { file, detail: 'it is empty, 0 bytes long' });
  }
  const isNew = !existsSync(file);
  let engine: SqliteDatabase.Database | null = null;
  try {
    const opened = new SqliteDatabase(file, { timeout: engineWait_ms });
    engine = opened;
    const ours = await inTurn({ isBusy, busy_ms }, async () => prepareFile(opened, file));
    if (!ours.ok) {
      opened.close();
      return ours;
    }
    const { watch } = options;
    const db = new Kysely<Database>({
      dialect: sqliteDialect(opened),
      ...(watch === undefined ? {} : { log: ({ query }) => watch(query) }),
    });
    const shaped = await inTurn({ isBusy, busy_ms }, () => bringToShape(db, opened, options.migrations));
    if (!shaped.ok) {
      await db.destroy();
      return shaped;
    }
    return ok(assemble(db, opened, file, { busy_ms, checkpoint_ms: options.checkpoint_ms ?? 1000 }));
  } catch (error) {
    engine?.close();
    // Begun by us and with nothing in it: the next start would take it for a file that was emptied.
    if (isNew && statSync(file, { throwIfNoEntry: false })?.size === 0) rmSync(file);
    return { ok: false, why: (error instanceof StoreTrouble ? error : troubleOf(error)).why };
  }
}

/**
 * Whether a file is there and has nothing in it. Another program that is making it right now leaves it so for a moment, so
 * it is looked at until somebody who is writing would be waited for no longer.
 */
async function staysEmpty(file: string, busy_ms: number): Promise<boolean> {
  const isEmpty = (): boolean => statSync(file, { throwIfNoEntry: false })?.size === 0;
  const giveUpAt = performance.now() + busy_ms;
  while (isEmpty()) {
    if (performance.now() > giveUpAt) return true;
    await wait(20);
  }
  return false;
}

function assemble(
  db: Kysely<Database>,
  engine: SqliteDatabase.Database,
  file: string,
  { busy_ms, checkpoint_ms }: { readonly busy_ms: number; readonly checkpoint_ms: number },
): SqliteStore {
  const troubleOf = sqliteTrouble(file);
  let timer: NodeJS.Timeout | null = null;
  const checks = new Set<() => void>();
  const checkpointIn = (wait_ms: number): void => {
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(() => {
      if (checkpoint(engine)) return;
      checkpointIn(checkpointAgain_ms);
    }, wait_ms);
    timer.unref();
  };
  const store = sqlStore(db, {
    troubleOf,
    isBusy,
    busy_ms,
    kept: () => checkpointIn(checkpoint_ms),
    faults: async () => {
      const check = checkEngine(file);
      checks.add(check.stop);
      return await check.faults.finally(() => checks.delete(check.stop));
    },
  });
  return {
    ...whileThere(store, file),
    file,
    backUp: (to) => backUp(engine, to),
    close: async () => {
      if (timer !== null) clearTimeout(timer);
      for (const stop of checks) stop();
      await store.close();
    },
  };
}

/**
 * Bring everything into the main file too. False when that failed, on a full disk above all: the records lie in the
 * journal beside it, where they are as safe, and whoever writes next is told.
 */
function checkpoint(engine: SqliteDatabase.Database): boolean {
  try {
    if (engine.open && !engine.inTransaction) engine.pragma('wal_checkpoint(PASSIVE)');
    return true;
  } catch {
    return false;
  }
}

/** Before anything is written: is this a SQLite file, and one of ours (or an empty new one)? Not looked through here. */
function prepareFile(engine: SqliteDatabase.Database, file: string): Outcome<null> {
  const tables = engine.prepare('select count(*) as count from sqlite_schema').get() as { count: number };
  const id = engine.pragma('application_id', { simple: true });
  if (tables.count > 0 && id !== applicationId) return no('server.store.not-a-store', { file });
  engine.pragma('journal_mode = WAL');
  // Every commit is on the disk before it is acknowledged (sqlite.org/pragma.html#pragma_synchronous).
  engine.pragma('synchronous = FULL');
  engine.pragma('foreign_keys = ON');
  return ok(null);
}

async function bringToShape(
  db: Kysely<Database>,
  engine: SqliteDatabase.Database,
  migrations?: readonly Migration[],
): Promise<Outcome<null>> {
  return await db.transaction().execute(async (trx) => {
    // Written only once: a store that is refused below must stay as it is, byte for byte.
    if (engine.pragma('application_id', { simple: true }) !== applicationId) {
      engine.pragma(`application_id = ${applicationId}`);
    }
    const migrated = await migrate(trx, migrations);
    if (!migrated.ok) return migrated;
    const head = await trx.selectFrom('log_head').selectAll().executeTakeFirstOrThrow();
    if (head.rows_shape === shapeChecksum) return ok(null);
    if (head.rows_on !== null) await rebuild(trx, CalendarDate.parse(head.rows_on));
    else {
      await makeReadTables(trx);
      await trx.updateTable('log_head').set({ rows_shape: shapeChecksum }).where('one', '=', 1).execute();
    }
    return ok(null);
  });
}
