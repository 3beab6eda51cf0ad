import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { at, kitten, testLog } from '../../../test/support/log.js';
import type { Outcome } from '../../core/said.js';
import { draft } from '../../log/record.js';
import { StoreTrouble } from '../../log/store.js';
import { migrations as steps } from '../migrations/index.js';
import type { Migration } from '../migrations/migration.js';
import { verifyStore } from '../verify.js';
import { mountedAs, networkOf, networkTypes, prepareFolder } from './folder.js';
import { type OpenOptions, openStore, type SqliteStore, storeFile } from './open.js';

let folder: string;
const stores: SqliteStore[] = [];
const noon = at('2026-03-02', '12:00');

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'roundhand-store-'));
});
afterEach(async () => {
  for (const store of stores.splice(0)) await store.close();
  rmSync(folder, { recursive: true, force: true });
});

async function opened(options: OpenOptions = {}, where = folder): Promise<SqliteStore> {
  const outcome = await openStore(where, options);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.why));
  stores.push(outcome.value);
  return outcome.value;
}
const saying = (outcome: Outcome<unknown>): string => (outcome.ok ? 'ok' : outcome.why.say);

function someLog(animals = 5) {
  const log = testLog();
  log.add([draft('shelter-described', 'shelter:self', { name: 'S', zone: 'UTC', weightUnit: 'g', demo: false }, noon)]);
  for (let index = 0; index < animals; index += 1) {
    log.add([draft('animal-taken-in', `animal:a${index}`, kitten(`A${index}`, '2026-01-20'), noon)]);
  }
  return log;
}

describe('a store that will not do is refused in one sentence, and left alone (Verifies: LOG-R10)', () => {
  it('is on another computer', async () => {
    expect(saying(await openStore(folder, { network: () => 'nfs4' }))).toBe('server.store.network-share');
    expect(() => readFileSync(join(folder, storeFile))).toThrow();
  });

  it('tells the file systems of this computer from those of others', () => {
    expect(networkOf(folder)).toBeNull();
    // Mount tables as proc(5) describes them; the lines are invented.
    const table = [
      '/dev/sda1 / ext4 rw 0 0',
      'box:/share /far/share nfs4 rw 0 0',
      '//box/desk /far/the\\040desk cifs rw 0 0',
      '/dev/sdb1 /far/share/disk ext4 rw 0 0',
      'me@box: /people/me/box fuse.sshfs rw 0 0',
    ].join('\n');
    const kind = (path: string): string | null => mountedAs(path, table);
    expect(kind('/people/me')).toBe('ext4');
    expect(kind('/far/share')).toBe('nfs4');
    expect(kind('/far/sharepoint')).toBe('ext4');
    expect(kind('/far/the desk/data')).toBe('cifs');
    expect(kind('/far/share/disk/data')).toBe('ext4');
    expect(
      ['nfs4', 'cifs', 'smb3', '9p', 'fuse.sshfs', 'ext4', 'btrfs', 'overlay', 'fuse'].map((type) =>
        networkTypes.test(type),
      ),
    ).toEqual([true, true, true, true, true, false, false, false, false]);
  });

  it('cannot be made, or is a file', async () => {
    writeFileSync(join(folder, 'file'), 'a file');
    expect(saying(await openStore(join(folder, 'file', 'inside')))).toBe('server.store.folder-missing');
    expect(saying(prepareFolder(join(folder, 'file')))).toMatch(/^server\.store\.folder-(missing|not-writable)$/);
  });

  it.each([
    ['text', 'not-a-store', () => Buffer.from('this is no record file, but somebody put it here\n'.repeat(50))],
    ['a SQLite file of another program', 'not-a-store', otherProgramsFile],
  ] as const)('is %s', async (_what, code, content) => {
    const bytes = content();
    writeFileSync(join(folder, storeFile), bytes);
    expect(saying(await openStore(folder))).toBe(`server.store.${code}`);
    expect(readFileSync(join(folder, storeFile)).equals(bytes)).toBe(true);
  });

  it('has been emptied to nothing (Verifies: LOG-R42)', async () => {
    writeFileSync(join(folder, storeFile), '');
    expect(saying(await openStore(folder, { busy_ms: 50 }))).toBe('server.store.damaged');
    expect(readFileSync(join(folder, storeFile)).length).toBe(0);
  });

  it('was kept by a newer program', async () => {
    const next: Migration = {
      number: steps.length + 1,
      name: 'from-the-future',
      statements: (schema) => [schema.createTable('later').addColumn('one', 'integer')],
    };
    const newer = await opened({ migrations: [...steps, next] });
    await newer.append(someLog().records, noon);
    await newer.close();
    expect(await openStore(folder)).toMatchObject({
      ok: false,
      why: { say: 'server.store.newer-version', with: { store: steps.length + 1, program: steps.length } },
    });
    const again = await opened({ migrations: [...steps, next] });
    expect((await again.head()).seq).toBe(6);
    expect((await verifyStore(again)).whole).toBe(true);
  });

  it('is brought on by a newer program without losing a record', async () => {
    const old = await opened();
    await old.append(someLog().records, noon);
    const before = await old.read();
    await old.close();
    const next: Migration = {
      number: steps.length + 1,
      name: 'one-more',
      statements: (schema) => [schema.createTable('one_more').addColumn('one', 'integer')],
    };
    const newer = await opened({ migrations: [...steps, next] });
    expect(await newer.read()).toEqual(before);
    expect((await verifyStore(newer)).whole).toBe(true);
  });

  it('had a step changed by hand', async () => {
    const store = await opened();
    await store.close();
    change("update store_migrations set checksum = 'other'");
    expect(saying(await openStore(folder))).toBe('server.store.changed-by-hand');
  });

  it('is held by another program', async () => {
    const store = await opened();
    await store.close();
    const holder = new SqliteDatabase(join(folder, storeFile));
    holder.pragma('locking_mode = EXCLUSIVE');
    holder.exec('begin exclusive');
    expect(saying(await openStore(folder, { busy_ms: 100 }))).toBe('server.store.busy');
    holder.exec('rollback');
    holder.close();
    expect((await opened()).file).toBe(join(folder, storeFile));
  });
});

describe('while it is open', () => {
  it('says who is in the way of an append, keeps nothing of it, and goes on afterwards (Verifies: LOG-R5)', async () => {
    const store = await opened({ busy_ms: 100 });
    const { records } = someLog();
    await store.append(records.slice(0, 2), noon);
    const holder = new SqliteDatabase(store.file);
    holder.exec('begin immediate');
    const waiting = store.append(records, noon);
    await expect(waiting).rejects.toBeInstanceOf(StoreTrouble);
    await expect(waiting).rejects.toMatchObject({ code: 'busy' });
    holder.exec('rollback');
    holder.close();
    expect((await store.head()).seq).toBe(2);
    await store.append(records, noon);
    expect((await store.head()).seq).toBe(6);
  });

  it('keeps no record whose read tables could not be written (Verifies: LOG-R5)', async () => {
    const store = await opened();
    const { records } = someLog();
    await store.append(records.slice(0, 2), noon);
    change("create trigger refuse before insert on animals begin select raise(abort, 'no room'); end");
    await expect(store.append(records, noon)).rejects.toBeInstanceOf(StoreTrouble);
    expect((await store.head()).seq).toBe(2);
    expect(await store.read()).toHaveLength(2);
    change('drop trigger refuse');
    await store.append(records, noon);
    expect((await verifyStore(store)).whole).toBe(true);
  });

  it('finds every way in which somebody may have changed the file (Verifies: LOG-R3, LOG-R8)', async () => {
    const store = await opened();
    await store.append(someLog().records, noon);
    const faults: [string, string][] = [
      ["update records set body = replace(body, 'A1', 'A9') where seq = 3", 'changed 3'],
      ["update records set by_person = 'sol' where seq = 3", 'changed 3'],
      ["update records set received_at = '2026-03-02T12:00:01.000Z' where seq = 3", 'changed 3'],
      ['delete from records where seq = 3', 'place-missing 3'],
      ['delete from records where seq = 6', 'place-missing 6'],
      ["update animals set name = 'other' where animal = 'a1'", 'animals different'],
      ["delete from animals where animal = 'a1'", 'animals missing'],
      ["insert into people values ('x', 'medical', 1)", 'people extra'],
    ];
    for (const [statement, found] of faults) {
      const copy = mkdtempSync(join(tmpdir(), 'roundhand-changed-'));
      await store.backUp(join(copy, storeFile));
      change(statement, copy);
      const changed = await opened({}, copy);
      const { whole, chain, tables } = await verifyStore(changed);
      const said = [
        chain.whole ? '' : `${chain.fault} ${chain.brokenAt}`,
        ...tables.flatMap((one) =>
          (['missing', 'extra', 'different'] as const)
            .filter((how) => one[how] > 0)
            .map((how) => `${one.table} ${how}`),
        ),
      ];
      expect(whole, statement).toBe(false);
      expect(said, statement).toContain(found);
      await changed.close();
      rmSync(copy, { recursive: true });
    }
    expect((await verifyStore(store)).whole).toBe(true);
  });

  it('makes its read tables anew when their shape is another one (Verifies: LOG-R8)', async () => {
    const store = await opened();
    await store.append(someLog().records, noon);
    const rows = await store.rows('animals');
    await store.close();
    change(
      "update log_head set rows_shape = 'of an older program'; drop table chips; alter table people add column older text",
    );
    const again = await opened();
    expect(await again.rows('animals')).toEqual(rows);
    expect((await verifyStore(again)).whole).toBe(true);
  });

  it('forgets nothing of what it has read when more cannot be read at first (Verifies: LOG-R20)', async () => {
    const store = await opened();
    const log = someLog(1);
    await store.append(log.records, noon);
    expect((await store.shelter()).people).toEqual([]);
    const other = await opened();
    const person = { person: 'nic', role: 'volunteer' } as never;
    await other.append(log.add([draft('person-described', 'person:nic', person, noon)]), noon);
    change('alter table records rename to records_away');
    await expect(store.shelter()).rejects.toBeInstanceOf(StoreTrouble);
    await expect(
      store.append(log.add([draft('person-described', 'person:nic', person, noon)]), noon),
    ).rejects.toBeInstanceOf(StoreTrouble);
    change('alter table records_away rename to records');
    expect((await store.shelter()).people.map(({ id }) => id)).toEqual(['nic']);
    await store.append(log.add([draft('animal-taken-in', 'animal:a9', kitten('A9', '2026-01-20'), noon)]), noon);
    expect((await verifyStore(store)).whole).toBe(true);
  });

  it('is copied whole while it is being written to (Verifies: LOG-R11)', async () => {
    const store = await opened();
    const { records } = someLog(80);
    await store.append(records.slice(0, 50), noon);
    const copies = mkdtempSync(join(tmpdir(), 'roundhand-copy-'));
    const writing = (async () => {
      for (const record of records.slice(50)) await store.append([record], noon);
    })();
    await store.backUp(join(copies, storeFile));
    await writing;
    const copy = await opened({}, copies);
    const head = await copy.head();
    expect(head.seq).toBeGreaterThanOrEqual(50);
    expect(await copy.read()).toEqual(await store.read({ limit: head.seq }));
    expect((await verifyStore(copy)).whole).toBe(true);
    await copy.close();
    rmSync(copies, { recursive: true });
  });

  it('throws a copy away that is not whole, and says so (Verifies: LOG-R11)', async () => {
    const store = await opened();
    await store.append(someLog().records, noon);
    change("update records set body = '{}' where seq = 2");
    const to = join(folder, 'copy.sqlite');
    await expect(store.backUp(to)).rejects.toMatchObject({ code: 'damaged' });
    expect(() => readFileSync(to)).toThrow();
  });

  it('has everything in its main file soon after the last append, for those who copy only that (Verifies: LOG-R11)', async () => {
    const store = await opened({ checkpoint_ms: 20 });
    await store.append(someLog().records, noon);
    const copies = mkdtempSync(join(tmpdir(), 'roundhand-copy-'));
    const held = join(copies, storeFile);
    await expect
      .poll(() => {
        copyFileSync(store.file, held);
        return recordsIn(held);
      })
      .toBe(6);
    const copy = await opened({}, copies);
    expect((await copy.head()).seq).toBe(6);
    expect((await verifyStore(copy)).whole).toBe(true);
    await copy.close();
    rmSync(copies, { recursive: true });
  });
});

/** Records in a file that was copied without its log of writes; none when its tables are not there yet. */
function recordsIn(file: string): number {
  const db = new SqliteDatabase(file);
  try {
    const found = db.prepare<[], { count: number }>('select count(*) as count from records').get();
    return found?.count ?? 0;
  } catch {
    return 0;
  } finally {
    db.close();
  }
}

/** As somebody with a SQL tool would. */
function change(statements: string, where = folder): void {
  const db = new SqliteDatabase(join(where, storeFile));
  db.pragma('foreign_keys = OFF');
  db.exec(statements);
  db.close();
}

function otherProgramsFile(): Buffer {
  mkdirSync(join(folder, 'other'));
  const file = join(folder, 'other', 'other.sqlite');
  const db = new SqliteDatabase(file);
  db.exec('create table recipes (name text)');
  db.close();
  return readFileSync(file);
}
