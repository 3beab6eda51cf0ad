import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Decrypter } from 'age-encryption';
import SqliteDatabase from 'better-sqlite3';
import { create, extract } from 'tar';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { at } from '../../../test/support/log.js';
import { shelterLog, weighed } from '../../../test/support/shelter-log.js';
import { blobsFolder, folderBlobs } from '../../store/blobs/folder.js';
import { openStore, type SqliteStore, storeFile } from '../../store/sqlite/open.js';
import { headFaults, headsFile, headsOf } from '../../store/tree-heads.js';
import { verifyStore } from '../../store/verify.js';
import { makeCopy } from './make-copy.js';
import { putBack } from './put-back.js';

const noon = at('2026-03-02', '12:00');
const passphrase = 'seven cats in the laundry';
const folder = mkdtempSync(join(tmpdir(), 'roundhand-copies-'));
const data = join(folder, 'data');
let store: SqliteStore;
let log: ReturnType<typeof shelterLog>;
let picture = '';
const what = () => ({
  backUp: store.backUp,
  blobs: folderBlobs(join(data, blobsFolder)),
  heads: headsOf(store, data, () => noon),
});
const place = (name: string): string => {
  const there = join(folder, name);
  mkdirSync(there, { recursive: true });
  return there;
};
async function copied(name: string, sealed: string | null = null, when = noon): Promise<string> {
  const made = await makeCopy(what(), { folder: place(name), passphrase: sealed, workFactor: 10 }, when);
  if (!made.ok) throw new Error(JSON.stringify(made.why));
  return made.value;
}

const plain = (): string => join(folder, 'plain', 'roundhand-2026-03-02-12-00-00.tar');

async function opened(where: string): Promise<SqliteStore> {
  const outcome = await openStore(where);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.why));
  return outcome.value;
}

beforeAll(async () => {
  store = await opened(data);
  log = shelterLog(3);
  await store.append(log.records, noon);
  picture = await folderBlobs(join(data, blobsFolder)).put(Uint8Array.of(1, 2, 3));
  await what().heads.sign();
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('a copy (Verifies: COPY-R1)', () => {
  it('put back is the records, pictures and signed heads, and says when the last record came in', async () => {
    const file = await copied('plain');
    expect(readdirSync(join(folder, 'plain'))).toEqual(['roundhand-2026-03-02-12-00-00.tar']);
    const to = join(folder, 'plain-back');
    expect(await putBack(file, to, null, noon)).toEqual({
      ok: true,
      value: { records: log.records.length, receivedAt: noon, zone: 'UTC', damaged: [] },
    });
    expect(readdirSync(to).sort()).toEqual([blobsFolder, headsFile, storeFile]);
    const back = await opened(to);
    expect(await back.read()).toEqual(await store.read());
    expect((await verifyStore(back)).whole).toBe(true);
    expect(await headFaults(back, to)).toEqual({ kept: 1, wrong: [] });
    expect(await folderBlobs(join(to, blobsFolder)).list()).toEqual([picture]);
    await back.close();
    // Keys and names of people are in no copy.
    expect(readFileSync(file).includes('PRIVATE KEY')).toBe(false);
    expect(await putBack(file, to, null, noon)).toMatchObject({
      ok: false,
      why: { say: 'server.salvage.target-taken' },
    });
  });

  it('whose putting back was cut off can be put back again, and nothing of the first try stays', async () => {
    const file = await copied('twice');
    const to = place('twice-back');
    // As it lies there when the program is killed: half a store under the name of what is not done yet.
    const half = join(to, '.put-back-abc');
    mkdirSync(half);
    writeFileSync(join(half, storeFile), 'half');
    expect(await putBack(file, to, null, noon)).toMatchObject({ ok: true });
    expect(readdirSync(to).sort()).toEqual([blobsFolder, headsFile, storeFile]);
  });

  it('is made while records come in, and holds what was there', async () => {
    const [file] = await Promise.all([
      copied('busy'),
      store.append(log.add([weighed(1, 700, noon)]), noon),
      store.append(log.add([weighed(1, 710, noon)]), noon),
    ]);
    const made = await putBack(file, join(folder, 'busy-back'), null, noon);
    expect(made.ok && made.value.records).toBeGreaterThanOrEqual(log.records.length - 2);
  });

  it('is not made where the place is not there, and takes no older copy away when it fails', async () => {
    expect(await makeCopy(what(), { folder: join(folder, 'no-disk'), passphrase: null }, noon)).toEqual({
      ok: false,
      why: { say: 'copies.place-missing', with: { folder: join(folder, 'no-disk') } },
    });
    expect(existsSync(join(folder, 'no-disk'))).toBe(false);
    const older = await copied('failing', null, at('2025-01-01', '12:00'));
    const failing = { ...what(), backUp: () => Promise.reject(new Error('the disk is full')) };
    expect(await makeCopy(failing, { folder: place('failing'), passphrase: null }, noon)).toEqual({
      ok: false,
      why: { say: 'copies.failed', with: { folder: place('failing'), detail: 'the disk is full' } },
    });
    expect(readdirSync(place('failing')).map((name) => join(place('failing'), name))).toEqual([older]);
  });

  it('is not made over damaged records', async () => {
    const spoiled = join(folder, 'spoiled');
    const other = await opened(spoiled);
    await other.append(shelterLog(2).records, noon);
    const db = new SqliteDatabase(join(spoiled, storeFile));
    db.exec(`update records set device = 'another' where seq = 3`);
    db.close();
    const made = await makeCopy({ ...what(), backUp: other.backUp }, { folder: place('over'), passphrase: null }, noon);
    expect(made).toMatchObject({ ok: false, why: { say: 'copies.records-damaged' } });
    expect(readdirSync(place('over'))).toEqual([]);
    await other.close();
  });

  it('lets those go that the rule does not keep, and nothing else (Verifies: COPY-R3)', async () => {
    const there = place('kept');
    for (const name of ['roundhand-2025-12-01-06-00-00.tar', 'roundhand-2025-12-01-12-00-00.tar', 'holiday.jpg'])
      writeFileSync(join(there, name), '');
    await copied('kept');
    expect(readdirSync(there).sort()).toEqual([
      'holiday.jpg',
      'roundhand-2025-12-01-12-00-00.tar',
      'roundhand-2026-03-02-12-00-00.tar',
    ]);
  });
});

describe('a sealed copy (Verifies: COPY-R2)', () => {
  let file = '';
  beforeAll(async () => {
    file = await copied('sealed', passphrase);
  });

  it('is in the open format, readable by its owner only, and shows nothing of what is in it', async () => {
    expect(file).toMatch(/\.tar\.age$/);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    const bytes = readFileSync(file);
    expect(bytes.toString('latin1').startsWith('age-encryption.org/v1\n-> scrypt ')).toBe(true);
    expect(bytes.includes('SQLite format')).toBe(false);
    // The library's own reading, apart from the way in which the program opens copies.
    const decrypter = new Decrypter();
    decrypter.addPassphrase(passphrase);
    const plain = Buffer.from(await decrypter.decrypt(bytes));
    expect(plain.toString('latin1', 257, 262)).toBe('ustar');
  });

  it('is put back with the passphrase and with no other, and not when a byte was changed', async () => {
    expect(await putBack(file, join(folder, 'sealed-back'), passphrase, noon)).toMatchObject({
      ok: true,
      value: { records: log.records.length, receivedAt: noon },
    });
    const to = join(folder, 'not-back');
    expect(await putBack(file, to, null, noon)).toMatchObject({ ok: false, why: { say: 'copies.sealed' } });
    expect(await putBack(file, to, `${passphrase}!`, noon)).toMatchObject({
      ok: false,
      why: { say: 'copies.not-opened' },
    });
    const bytes = readFileSync(file);
    bytes[bytes.length - 5000] = (bytes[bytes.length - 5000] ?? 0) ^ 1;
    const changed = join(folder, 'changed.tar.age');
    writeFileSync(changed, bytes);
    expect(await putBack(changed, to, passphrase, noon)).toMatchObject({
      ok: false,
      why: { say: 'copies.not-opened' },
    });
    expect(existsSync(to)).toBe(false);
  });
});

describe('what is no whole copy (Verifies: COPY-R1)', () => {
  it.each([
    ['another file', (file: string) => writeFileSync(file, 'a letter'), 'copies.not-a-copy'],
    ['an empty file', (file: string) => writeFileSync(file, ''), 'copies.not-a-copy'],
    [
      'a copy cut off',
      (file: string) => writeFileSync(file, readFileSync(plain()).subarray(0, 9000)),
      'copies.not-unpacked',
    ],
    [
      'a copy in which a record was changed',
      async (file: string) => {
        const there = join(folder, 'changed');
        await extract({ file: plain(), cwd: place('changed') });
        const db = new SqliteDatabase(join(there, storeFile));
        db.exec(`update records set device = 'another' where seq = 3`);
        db.close();
        await create({ cwd: there, file }, [storeFile]);
      },
      'copies.not-whole',
    ],
  ])('makes nothing: %s', async (_what, write, why) => {
    const [file, to] = [join(folder, 'odd'), join(folder, 'odd-back')];
    await write(file);
    expect(await putBack(file, to, null, noon)).toMatchObject({ ok: false, why: { say: why } });
    expect(existsSync(to)).toBe(false);
  });

  it('is no disk that nothing can be written to', async () => {
    const there = place('read-only');
    chmodSync(there, 0o555);
    const made = await makeCopy(what(), { folder: there, passphrase: null }, noon);
    // The superuser writes all the same.
    expect(made.ok).toBe(process.getuid?.() === 0);
    chmodSync(there, 0o755);
  });
});
