import { join } from 'node:path';
import type SqliteDatabase from 'better-sqlite3';
import type { Outcome } from '../../core/said.js';
import { byId, changedBy, PrivatePerson, type PrivateSide } from '../../log/private-side.js';
import { oneLine, sqliteTrouble } from '../trouble.js';
import { openPrivateFile } from './open-file.js';

/** A file of its own, beside that of the records: copied, withheld and erased apart from them. */
export const privateFile = 'people.sqlite';

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
  return openPrivateFile(file, { applicationId, shape, tables }, (engine) => privateSideIn(engine, file));
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
