import { chmodSync, cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { extract } from 'tar';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { folderBlobs } from '../../src/store/blobs/folder.js';
import { signInFile } from '../../src/store/private/sign-ins.js';
import { privateFile } from '../../src/store/private/sqlite.js';
import { openStore, storeFile } from '../../src/store/sqlite/open.js';
import { verifyStore } from '../../src/store/verify.js';
import { at } from '../support/log.js';
import { shelterLog, weighed } from '../support/shelter-log.js';
import { asking, clientOf, requireBuilt, start, value } from './support/server.js';

let data: string;
beforeAll(requireBuilt);
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'roundhand-start-'));
});
afterEach(() => rmSync(data, { recursive: true, force: true }));

/** One sentence: a capital first, a stop last, no second line, no trace of the inside. */
const oneSentence = /^[A-Z][^\n]*\.\n$/;

async function records(): Promise<void> {
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(shelterLog(30).records, at('2026-03-02'));
  await opened.value.close();
}

async function refused(port = 0, uid?: number): Promise<string> {
  const { code, err, out } = await start(data, port, uid).ended;
  expect(code).toBe(1);
  expect(out).toBe('');
  expect(err).toMatch(oneSentence);
  expect(err).not.toContain('    at ');
  return err;
}

describe('what stands in the way of a start is one sentence, and nothing is lost (Verifies: LOG-R10)', () => {
  it('the port is in use', async () => {
    await records();
    const holder = createServer();
    await new Promise<void>((resolve) => holder.listen(0, '127.0.0.1', resolve));
    const address = holder.address();
    if (address === null || typeof address === 'string') throw new Error('no port');
    expect(await refused(address.port)).toContain(`Port ${address.port} is in use`);
    holder.close();
    const opened = await openStore(data);
    expect(opened.ok && (await verifyStore(opened.value)).whole).toBe(true);
    if (opened.ok) await opened.value.close();
  });

  it('nothing can be written to the folder', async () => {
    await records();
    // Permissions do not hold the superuser back, so another user is asked to.
    const nobody = process.getuid?.() === 0 ? 65534 : undefined;
    chmodSync(data, 0o555);
    expect(await refused(0, nobody)).toContain('Nothing can be written');
    chmodSync(data, 0o755);
    if (nobody !== undefined) expect(await refused(0, nobody)).toContain('Nothing can be written');
  });

  it('the folder cannot be made', async () => {
    writeFileSync(join(data, 'file'), '');
    data = join(data, 'file', 'inside');
    expect(await refused()).toContain('is not there and cannot be made');
    data = join(data, '..', '..');
  });

  it('the records are of a newer version', async () => {
    await records();
    const db = new SqliteDatabase(join(data, storeFile));
    db.exec("insert into store_migrations values (99, 'later', 'x')");
    db.close();
    const before = readFileSync(join(data, storeFile));
    expect(await refused()).toContain('newer version');
    expect(readFileSync(join(data, storeFile)).equals(before)).toBe(true);
  });

  it.each([
    ['the beginning of the file is damaged', 0, 'is not a record file of this program, or its beginning is damaged'],
    ['the middle of the file is damaged', 3, 'is damaged'],
  ] as const)('%s', async (_what, page, sentence) => {
    await records();
    const file = join(data, storeFile);
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 4096 * page, 4096 * (page + 4));
    writeFileSync(file, bytes);
    expect(await refused()).toContain(sentence);
    expect(readFileSync(file).equals(bytes)).toBe(true);
  });

  it('another program holds the records', async () => {
    await records();
    const holder = new SqliteDatabase(join(data, storeFile));
    holder.pragma('locking_mode = EXCLUSIVE');
    holder.exec('begin exclusive');
    expect(await refused()).toContain('Another program is holding');
    holder.exec('rollback');
    holder.close();
  });
});

/** What is said at the start where nobody can sign in yet (Verifies: LOG-R206). */
const whenEmpty = (url: string): RegExp =>
  new RegExp(`^The first administrator signs in with this code.*: [A-Z2-9]{10}\\nRoundhand is at ${url}\\n$`);

describe('a start that goes well', () => {
  it('makes the folder, says where it is, and on SIGTERM ends with everything in one file', async () => {
    data = join(data, 'new', 'folder');
    const server = start(data);
    const url = await server.ready;
    if (url === null) throw new Error(JSON.stringify(await server.ended));
    expect(value(await clientOf(url, 'x').shelter())).toMatchObject({ state: 'empty' });
    server.child.kill('SIGTERM');
    expect(await server.ended).toMatchObject({ code: 0, err: '', out: expect.stringMatching(whenEmpty(url)) });
    expect(readdirSync(data).sort()).toEqual([privateFile, signInFile, storeFile].sort());
    data = join(data, '..', '..');
  });

  it('gives a backup of records and pictures over the wire that is whole and can be put in place (Verifies: LOG-R11, LOG-R98)', async () => {
    await records();
    const server = start(data);
    const url = await server.ready;
    if (url === null) throw new Error(JSON.stringify(await server.ended));
    const log = shelterLog(30);
    const more = log.add([weighed(1, 700, at('2026-03-02'))], 'ines');
    value(await clientOf(url, 'ines').append({ records: more }));
    const denied = await fetch(`${url}/api/backup`, { headers: asking(url, 'ines') });
    expect(denied.status).toBe(403);
    const blobs = folderBlobs(join(data, 'blobs'));
    const [whole, spoiled] = [await blobs.put(Uint8Array.of(1, 2, 3)), await blobs.put(Uint8Array.of(4))];
    writeFileSync(join(data, 'blobs', spoiled.slice(0, 2), spoiled.slice(2)), 'x');
    const answer = await fetch(`${url}/api/backup`, { headers: asking(url, 'sol') });
    expect(answer.headers.get('content-type')).toBe('application/x-tar');
    const restored = mkdtempSync(join(tmpdir(), 'roundhand-restored-'));
    const archive = join(restored, 'copy.tar');
    writeFileSync(archive, Buffer.from(await answer.arrayBuffer()));
    await extract({ file: archive, cwd: restored });
    expect(await folderBlobs(join(restored, 'blobs')).list()).toEqual([whole]);
    server.child.kill('SIGTERM');
    await server.ended;
    const opened = await openStore(restored);
    if (!opened.ok) throw new Error(JSON.stringify(opened.why));
    expect(await verifyStore(opened.value)).toMatchObject({ whole: true, records: log.records.length });
    await opened.value.close();
    rmSync(restored, { recursive: true });
  });

  it('survives a copy of a folder that was in use', async () => {
    await records();
    const server = start(data);
    const url = await server.ready;
    if (url === null) throw new Error(JSON.stringify(await server.ended));
    const log = shelterLog(30);
    value(await clientOf(url, 'ines').append({ records: log.add([weighed(1, 700, at('2026-03-02'))], 'ines') }));
    const copy = join(data, 'copy');
    mkdirSync(copy);
    for (const name of readdirSync(data)) if (name.startsWith(storeFile)) cpSync(join(data, name), join(copy, name));
    server.child.kill('SIGTERM');
    await server.ended;
    const opened = await openStore(copy);
    if (!opened.ok) throw new Error(JSON.stringify(opened.why));
    expect((await opened.value.head()).seq).toBe(log.records.length);
    expect((await verifyStore(opened.value)).whole).toBe(true);
    await opened.value.close();
  });
});
