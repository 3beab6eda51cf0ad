import { chmodSync, closeSync, openSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { no, type Outcome, ok } from '../../core/said.js';
import { byId, changedBy, PrivatePerson, type PrivateSide } from '../../log/private-side.js';
import { oneLine, sqliteTrouble } from '../trouble.js';

/** A file of its own, beside that of the records: copied, withheld and erased apart from them. */
export const privateFile = 'people.sqlite';

/** Milliseconds the engine waits for another program that is writing here; nothing here takes long. */
const engineWait_ms = 5000;

/** Tells this file from that of the records and from other SQLite files: 'Rnpe' as a number, in the file's header. */
const applicationId = 0x526e7065;

/** Shape of the tables; a file of a later one is left as it is. */
const shape = 1;

const tables = `
  create table people (id text primary key, name text not null, licence text not null, contacts text not null,
    withdrawn integer not null) without rowid, strict;
  create table erased (id text primary key) without rowid, strict;
`;

interface Row {
  readonly id: string;
  readonly name: string;
  readonly licence: string;
  readonly contacts: string;
  readonly withdrawn: number;
}

/** Open, or make, the private side in a folder that is there. Says no with one sentence when the file will not do. */
export function openPrivateSide(folder: string): Outcome<PrivateSide> {
  const file = join(folder, privateFile);
  const troubleOf = sqliteTrouble(file);
  let engine: SqliteDatabase.Database | null = null;
  try {
    // Readable by its owner only, from the first byte on.
    closeSync(openSync(file, 'a', 0o600));
    chmodSync(file, 0o600);
    engine = new SqliteDatabase(file, { timeout: engineWait_ms });
    const ready = prepare(engine, file);
    if (ready.ok) return ok(privateSideIn(engine, file));
    engine.close();
    return ready;
  } catch (error) {
    engine?.close();
    return { ok: false, why: troubleOf(error).why };
  }
}

function prepare(engine: SqliteDatabase.Database, file: string): Outcome<null> {
  // No write-ahead journal: a name that was written over would live on in it.
  engine.pragma('journal_mode = DELETE');
  engine.pragma('synchronous = FULL');
  // What is deleted is written over with zeros (sqlite.org/pragma.html#pragma_secure_delete).
  engine.pragma('secure_delete = ON');
  // What the engine puts aside while it works must not come to lie in a folder for everybody.
  engine.pragma('temp_store = MEMORY');
  return engine
    .transaction((): Outcome<null> => {
      const { count } = engine.prepare('select count(*) as count from sqlite_schema').get() as { count: number };
      const id = engine.pragma('application_id', { simple: true });
      if (count === 0) {
        engine.pragma(`application_id = ${applicationId}`);
        engine.pragma(`user_version = ${shape}`);
        engine.exec(tables);
        return ok(null);
      }
      if (id !== applicationId) return no('server.store.not-a-store', { file });
      const there = Number(engine.pragma('user_version', { simple: true }));
      if (there > shape) return no('server.store.newer-version', { store: there, program: shape });
      const check = engine.pragma('quick_check(1)', { simple: true });
      return check === 'ok' ? ok(null) : no('server.store.damaged', { file, detail: oneLine(String(check)) });
    })
    .immediate();
}

function privateSideIn(engine: SqliteDatabase.Database, file: string): PrivateSide {
  const troubleOf = sqliteTrouble(file);
  const one = engine.prepare<[string], Row>('select * from people where id = ?');
  const all = engine.prepare<[], Row>('select * from people');
  const isErased = engine.prepare<[string]>('select 1 from erased where id = ?');
  const put = engine.prepare<[Row]>(
    'insert or replace into people values (@id, @name, @licence, @contacts, @withdrawn)',
  );
  const remove = engine.prepare<[string]>('delete from people where id = ?');
  const note = engine.prepare<[string]>('insert or ignore into erased values (?)');

  /** Counts what other programs have changed (sqlite.org/pragma.html#pragma_data_version); what this one does forgets it. */
  const version = (): unknown => engine.pragma('data_version', { simple: true });
  let read: { readonly version: unknown; readonly list: readonly PrivatePerson[] } | null = null;

  /** The file is written anew, so that no page keeps what was taken out of it. */
  const leaveNothing = (): void => void engine.exec('vacuum');
  const attempt = async <T>(work: () => T): Promise<T> => {
    try {
      return work();
    } catch (error) {
      throw troubleOf(error);
    }
  };

  return {
    change: (changes) =>
      attempt(() => {
        read = null;
        let writtenOver = false;
        const answers = engine
          .transaction(() =>
            changes.map((change) => {
              if (isErased.get(change.id) !== undefined) return 'erased' as const;
              const row = one.get(change.id);
              const next = changedBy(row === undefined ? undefined : personOf(row), change);
              if (next === null) return 'nameless' as const;
              writtenOver ||= row !== undefined;
              put.run({ ...next, contacts: JSON.stringify(next.contacts), withdrawn: next.withdrawn ? 1 : 0 });
              return 'kept' as const;
            }),
          )
          .immediate();
        if (writtenOver) leaveNothing();
        return answers;
      }),
    people: () =>
      attempt(() => {
        const now = version();
        const known =
          read !== null && read.version === now ? read : { version: now, list: all.all().map(personOf).sort(byId) };
        read = known;
        return known.list;
      }),
    erase: (ids) =>
      attempt(() => {
        read = null;
        engine
          .transaction(() => {
            for (const id of ids) {
              remove.run(id);
              note.run(id);
            }
          })
          .immediate();
        leaveNothing();
      }),
    faults: () =>
      attempt(() => {
        const lines = engine.pragma('integrity_check(10)') as readonly { readonly integrity_check: string }[];
        return lines.map((line) => oneLine(line.integrity_check)).filter((line) => line !== 'ok');
      }),
    close: async () => {
      engine.close();
    },
  };
}

const personOf = ({ contacts, withdrawn, ...rest }: Row): PrivatePerson =>
  PrivatePerson.parse({ ...rest, contacts: JSON.parse(contacts), withdrawn: withdrawn === 1 });
