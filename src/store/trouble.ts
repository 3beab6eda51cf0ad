import SqliteDatabase from 'better-sqlite3';
import { said } from '../core/said.js';
import { type FileTrouble, StoreTrouble } from '../log/store.js';
import { whyNotWritable } from './sqlite/writable.js';

/** First words of SQLite's result codes (sqlite.org/rescode.html) and what they mean to the people of the shelter. */
const meanings: readonly (readonly [string, FileTrouble])[] = [
  ['SQLITE_BUSY', 'busy'],
  ['SQLITE_LOCKED', 'busy'],
  ['SQLITE_FULL', 'full'],
  ['SQLITE_CORRUPT', 'damaged'],
  ['SQLITE_NOTADB', 'not-a-store'],
  ['SQLITE_READONLY', 'folder-not-writable'],
  ['SQLITE_CANTOPEN', 'folder-not-writable'],
  ['SQLITE_PERM', 'folder-not-writable'],
];

/** Codes under which the engine puts many causes together: a full disk, a limit on files, a folder that is gone. */
const unclear = /^SQLITE_(IOERR|CANTOPEN)/;

/** Put an error of the engine into a sentence that names the file. */
export function sqliteTrouble(file: string): (error: unknown) => StoreTrouble {
  return (error) => {
    if (error instanceof StoreTrouble) return error;
    const code = error instanceof SqliteDatabase.SqliteError ? error.code : '';
    const tried = unclear.test(code) ? whyNotWritable(file) : null;
    const meaning = tried ?? meanings.find(([start]) => code.startsWith(start))?.[1] ?? 'failed';
    const detail = oneLine(error instanceof Error ? error.message : String(error));
    return new StoreTrouble(meaning, said(`server.store.${meaning}`, { file, detail }), { cause: error });
  };
}

/** What the engine says goes into a sentence of ours, so it keeps to one line. */
export const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** True when the engine says only that somebody else is writing. */
export const isBusy = (error: unknown): boolean =>
  error instanceof SqliteDatabase.SqliteError && /^SQLITE_(BUSY|LOCKED)/.test(error.code);
