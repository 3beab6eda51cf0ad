import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import type { AnimalId, DeviceId, PersonId } from '../../core/ids.js';
import type { Outcome } from '../../core/said.js';
import { sqliteTrouble } from '../trouble.js';
import { openPrivateFile } from './open-file.js';

/** A file of its own beside the records, in no copy of them: what people sign in with, and what they signed in on. */
export const signInFile = 'sign-in.sqlite';

/** 'Rnsi' as a number, in the file's header. */
const applicationId = 0x526e7369;
const shape = 1;

/** What somebody proves with that they are who they say. */
export type SecretKind = 'password' | 'pin';

/** A device that somebody of the shelter has signed in on, or that was enrolled by a code. Times are UTC ISO text. */
export interface KnownDevice {
  readonly id: DeviceId;
  readonly name: string;
  /** SHA-256 of the secret that the device holds, hex. */
  readonly secret: string;
  /** Whether it was enrolled by a code: volunteers sign in with a PIN on such a device alone. */
  readonly enrolled: boolean;
  readonly since: string;
  readonly by: PersonId | null;
  readonly version: string;
  readonly seenAt: string;
  readonly revokedAt: string | null;
}

/** One stay of a person on a device: what is written there in their name meanwhile is theirs. */
export interface SignIn {
  readonly device: DeviceId;
  readonly person: PersonId;
  readonly since: string;
  readonly until: string | null;
}

export interface Session {
  /** SHA-256 of what the cookie holds, hex. */
  readonly id: string;
  readonly person: PersonId;
  readonly device: DeviceId;
  readonly since: string;
  readonly seenAt: string;
  /** When a password was last given. */
  readonly freshAt: string | null;
}

/** `person`: the first secret of a person; `device`: enrols a device; `first`: the first administrator. */
export type CodeFor = 'person' | 'device' | 'first';
export interface Code {
  /** SHA-256 of the code, hex. */
  readonly id: string;
  readonly use: CodeFor;
  /** The person, or the name of the device. */
  readonly whom: string;
  readonly by: PersonId | null;
  readonly until: string;
}

/** A record that is kept apart from the log until a person has judged it. */
export interface Apart {
  readonly id: string;
  readonly device: string;
  /** The record as it came, JSON. */
  readonly raw: string;
  readonly why: 'device-revoked' | 'not-signed-in';
  readonly at: string;
}

/** Wrong tries in a row, and until when no other is taken. */
export interface Tries {
  readonly count: number;
  readonly until: string;
}

export interface SignIns {
  readonly secretOf: (person: PersonId, kind: SecretKind) => string | null;
  readonly setSecret: (person: PersonId, kind: SecretKind, hash: string) => void;
  readonly administers: (person: PersonId) => boolean;
  readonly administrators: () => readonly PersonId[];
  readonly setAdministers: (person: PersonId, does: boolean) => void;
  /** Animals that a foster home has with it. */
  readonly homeOf: (person: PersonId) => readonly AnimalId[];
  readonly setHome: (person: PersonId, animals: readonly AnimalId[]) => void;
  readonly device: (id: DeviceId) => KnownDevice | null;
  readonly devices: () => readonly KnownDevice[];
  readonly putDevice: (device: KnownDevice) => void;
  readonly signInsOf: (device: DeviceId, person: PersonId) => readonly SignIn[];
  /** On a device, newest first. */
  readonly signInsOn: (device: DeviceId) => readonly SignIn[];
  readonly putSignIn: (one: SignIn) => void;
  readonly endSignIns: (which: { readonly device?: DeviceId; readonly person?: PersonId }, at: string) => void;
  readonly session: (id: string) => Session | null;
  readonly putSession: (session: Session) => void;
  readonly endSession: (id: string) => void;
  readonly putCode: (code: Code) => void;
  readonly code: (id: string) => Code | null;
  /** Takes a code out, so that it works once; false when another was faster. */
  readonly takeCode: (id: string) => boolean;
  readonly tries: (key: string) => Tries | null;
  readonly setTries: (key: string, tries: Tries | null) => void;
  readonly apart: () => readonly Apart[];
  readonly putApart: (one: Apart) => void;
  readonly dropApart: (id: string) => void;
  /** Forget all that a person signs in with. */
  readonly forget: (person: PersonId) => void;
  readonly close: () => void;
}

const tables = `
  create table secrets (person text, kind text, hash text not null, primary key (person, kind)) without rowid, strict;
  create table administrators (person text primary key) without rowid, strict;
  create table homes (person text, animal text, primary key (person, animal)) without rowid, strict;
  create table devices (id text primary key, name text not null, secret text not null, enrolled integer not null,
    since text not null, "by" text, version text not null, seenAt text not null, revokedAt text) without rowid, strict;
  create table sign_ins (device text, person text, since text, until text, primary key (device, person, since))
    without rowid, strict;
  create table sessions (id text primary key, person text not null, device text not null, since text not null,
    seenAt text not null, freshAt text) without rowid, strict;
  create table codes (id text primary key, use text not null, whom text not null, "by" text, until text not null)
    without rowid, strict;
  create table tries (key text primary key, count integer not null, until text not null) without rowid, strict;
  create table apart (id text primary key, device text not null, raw text not null, why text not null, at text not null)
    without rowid, strict;
`;

/** Open, or make, the file in a folder that is there. Says no with one sentence when it will not do. */
export function openSignIns(folder: string): Outcome<SignIns> {
  const file = join(folder, signInFile);
  return openPrivateFile(file, { applicationId, shape, tables }, (engine) => signInsIn(engine, file));
}

/** One in memory, gone with the process. */
export function memorySignIns(): SignIns {
  const engine = new SqliteDatabase(':memory:');
  engine.exec(tables);
  return signInsIn(engine, ':memory:');
}

function signInsIn(engine: SqliteDatabase.Database, file: string): SignIns {
  const troubleOf = sqliteTrouble(file);
  const attempt = <T>(work: () => T): T => {
    try {
      return work();
    } catch (error) {
      throw troubleOf(error);
    }
  };
  const get = <T>(sql: string, ...values: unknown[]): T | null =>
    attempt(() => (engine.prepare(sql).get(...values) as T | undefined) ?? null);
  const all = <T>(sql: string, ...values: unknown[]): readonly T[] =>
    attempt(() => engine.prepare(sql).all(...values) as T[]);
  const run = (sql: string, ...values: unknown[]): number => attempt(() => engine.prepare(sql).run(...values).changes);
  const deviceOf = (row: (Omit<KnownDevice, 'enrolled'> & { readonly enrolled: number }) | null): KnownDevice | null =>
    row === null ? null : { ...row, enrolled: row.enrolled === 1 };

  return {
    secretOf: (person, kind) =>
      get<{ hash: string }>('select hash from secrets where person = ? and kind = ?', person, kind)?.hash ?? null,
    setSecret: (person, kind, hash) => void run('insert or replace into secrets values (?, ?, ?)', person, kind, hash),
    administers: (person) => get('select 1 from administrators where person = ?', person) !== null,
    administrators: () => all<{ person: PersonId }>('select person from administrators').map(({ person }) => person),
    setAdministers: (person, does) =>
      void run(
        does ? 'insert or ignore into administrators values (?)' : 'delete from administrators where person = ?',
        person,
      ),
    homeOf: (person) =>
      all<{ animal: AnimalId }>('select animal from homes where person = ?', person).map(({ animal }) => animal),
    setHome: (person, animals) =>
      attempt(() =>
        engine.transaction(() => {
          run('delete from homes where person = ?', person);
          for (const animal of new Set(animals)) run('insert into homes values (?, ?)', person, animal);
        })(),
      ),
    device: (id) => deviceOf(get('select * from devices where id = ?', id)),
    devices: () =>
      all<never>('select * from devices order by since, id')
        .map((row) => deviceOf(row))
        .filter((one) => one !== null),
    putDevice: (one) =>
      void run(
        'insert or replace into devices values (@id, @name, @secret, @enrolled, @since, @by, @version, @seenAt, @revokedAt)',
        { ...one, enrolled: one.enrolled ? 1 : 0 },
      ),
    signInsOf: (device, person) => all('select * from sign_ins where device = ? and person = ?', device, person),
    signInsOn: (device) => all('select * from sign_ins where device = ? order by since desc', device),
    putSignIn: (one) => void run('insert or replace into sign_ins values (@device, @person, @since, @until)', one),
    endSignIns: ({ device = null, person = null }, at) =>
      attempt(() =>
        engine.transaction(() => {
          const which = { device, person, at };
          const where = '(@device is null or device = @device) and (@person is null or person = @person)';
          run(`update sign_ins set until = @at where until is null and ${where}`, which);
          run(`delete from sessions where ${where}`, which);
        })(),
      ),
    session: (id) => get('select * from sessions where id = ?', id),
    putSession: (one) =>
      void run('insert or replace into sessions values (@id, @person, @device, @since, @seenAt, @freshAt)', one),
    endSession: (id) => void run('delete from sessions where id = ?', id),
    putCode: (one) =>
      attempt(() =>
        engine.transaction(() => {
          // Of the codes for the first administrator the last one printed works.
          if (one.use === 'first') run("delete from codes where use = 'first'");
          run('insert or replace into codes values (@id, @use, @whom, @by, @until)', one);
        })(),
      ),
    code: (id) => get('select * from codes where id = ?', id),
    takeCode: (id) => run('delete from codes where id = ?', id) === 1,
    tries: (key) => get('select count, until from tries where key = ?', key),
    setTries: (key, tries) =>
      void (tries === null
        ? run('delete from tries where key = ?', key)
        : run('insert or replace into tries values (?, ?, ?)', key, tries.count, tries.until)),
    apart: () => all('select * from apart order by at, id'),
    // What was kept first under an id stays.
    putApart: (one) => void run('insert or ignore into apart values (@id, @device, @raw, @why, @at)', one),
    dropApart: (id) => void run('delete from apart where id = ?', id),
    forget: (person) =>
      attempt(() =>
        engine.transaction(() => {
          for (const table of ['secrets', 'administrators', 'homes', 'sessions'])
            run(`delete from ${table} where person = ?`, person);
          run("delete from codes where use = 'person' and whom = ?", person);
        })(),
      ),
    close: () => void engine.close(),
  };
}
