import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { BlobId } from '../../src/core/animal/photo.js';
import { AnimalId } from '../../src/core/ids.js';
import { describeAnimal } from '../../src/log/commands/animal.js';
import { folderBlobs } from '../../src/store/blobs/folder.js';
import { openStore } from '../../src/store/sqlite/open.js';
import { at } from '../support/log.js';
import { shelterLog } from '../support/shelter-log.js';
import { commandLine } from './support/command-line.js';

const { run } = commandLine();
const above = mkdtempSync(join(tmpdir(), 'roundhand-pictures-'));
afterAll(() => rmSync(above, { recursive: true, force: true }));
const noon = at('2026-03-02', '12:00');

/** A data folder with a photo of kit 1 in it. */
async function withPhoto(name: string) {
  const data = join(above, name);
  mkdirSync(data);
  const blobs = folderBlobs(join(data, 'blobs'));
  const picture = (width: number) =>
    sharp({ create: { width, height: 60, channels: 3, background: '#884422' } })
      .jpeg()
      .toBuffer();
  const photo = { full: await blobs.put(await picture(80)), small: await blobs.put(await picture(40)) };
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  const log = shelterLog(2);
  const marks = { collar: 'teal', coat: 'tabby', mark: '', photo };
  log.add(describeAnimal(AnimalId.parse('kit-1'), { marks }, noon), 'sol');
  await opened.value.append(log.records, noon);
  await opened.value.close();
  return { data, blobs, photo, fileOf: (id: string) => join(data, 'blobs', id.slice(0, 2), id.slice(2)) };
}

test('verify names the pictures that are missing, damaged and named by nobody (Verifies: LOG-R96)', async () => {
  const { data, blobs, photo, fileOf } = await withPhoto('verified');
  const verify = async () => {
    const { code, out, err } = await run(['verify', '--data', data, '--json']);
    return { code, err, ...(JSON.parse(out) as { whole: boolean; pictures: object }) };
  };
  expect(await verify()).toMatchObject({ code: 0, whole: true, pictures: { pictures: 2, missing: [], damaged: [] } });
  const stray = await blobs.put(Uint8Array.of(1, 2, 3));
  expect(await verify()).toMatchObject({ code: 0, whole: true, pictures: { unreferenced: [stray] } });
  writeFileSync(fileOf(photo.full), 'something else');
  expect(await verify()).toMatchObject({ code: 1, whole: false, pictures: { damaged: [photo.full] } });
  rmSync(fileOf(photo.full));
  const missing = await verify();
  expect(missing).toMatchObject({ code: 1, whole: false, pictures: { missing: [photo.full], damaged: [] } });
  expect(missing.err).toContain(photo.full);
});

test('export takes the pictures along, and they are put back by copying (Verifies: LOG-R96)', async () => {
  const { data, photo } = await withPhoto('exported');
  const file = join(above, 'out.ndjson');
  const ended = await run(['export', '--data', data, '--out', file]);
  expect([ended.code, ended.err]).toEqual([0, expect.stringContaining(`${file}.blobs`)]);
  const there = folderBlobs(`${file}.blobs`);
  expect(await there.list()).toEqual([photo.full, photo.small].sort());
  const found = await there.get(BlobId.parse(photo.full));
  expect(found.is === 'whole' && createHash('sha256').update(found.bytes).digest('hex')).toBe(photo.full);
  // Into another data folder: a copy of the records without the pictures is not whole, with them it is.
  const copy = join(above, 'copy');
  cpSync(data, copy, { recursive: true, filter: (path) => !path.endsWith('blobs') });
  expect((await run(['verify', '--data', copy])).code).toBe(1);
  cpSync(`${file}.blobs`, join(copy, 'blobs'), { recursive: true });
  expect((await run(['verify', '--data', copy])).code).toBe(0);
  const plain = await run(['export', '--data', data]);
  expect([plain.code, plain.err]).toEqual([0, expect.stringContaining('2 pictures')]);
});

test('what is saved of a damaged store takes its pictures along (Verifies: LOG-R98)', async () => {
  const { data, photo, fileOf } = await withPhoto('salvaged');
  const [to, again] = [join(above, 'saved'), join(above, 'saved-again')];
  expect((await run(['salvage', '--from', data, '--to', to])).code).toBe(0);
  expect((await run(['verify', '--data', to])).code).toBe(0);
  writeFileSync(fileOf(photo.small), 'x');
  const ended = await run(['salvage', '--from', data, '--to', again]);
  expect([ended.code, ended.err]).toEqual([1, expect.stringContaining(photo.small)]);
  expect(await folderBlobs(join(again, 'blobs')).list()).toEqual([photo.full]);
});

/** Puts one picture after the other for as long as it lives, and says of each that it is kept. */
const putForEver = `
  import { folderBlobs } from ${JSON.stringify(new URL('../../dist/store/blobs/folder.js', import.meta.url).href)};
  const blobs = folderBlobs(process.argv[1]);
  for (let one = 0; ; one += 1) {
    const bytes = new Uint8Array(200_000).fill(one % 251);
    bytes.set(new TextEncoder().encode(String(one)));
    console.log(await blobs.put(bytes));
  }`;

test('a picture that was acknowledged survives the end of the program, and none is half there (Verifies: LOG-R90)', async () => {
  for (let kills = 0; kills < 8; kills += 1) {
    const folder = join(above, `killed-${kills}`);
    const child = spawn(process.execPath, ['--input-type=module', '-e', putForEver, folder], { stdio: 'pipe' });
    let out = '';
    const ended = new Promise((done) => child.once('close', done));
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
      // Sooner and later in the work on the next one.
      if (out.split('\n').length > 3 + kills) setTimeout(() => child.kill('SIGKILL'), kills % 3);
    });
    await ended;
    const kept = out.split('\n').slice(0, -1);
    expect(kept.length).toBeGreaterThan(2);
    const blobs = folderBlobs(folder);
    const there = await blobs.list();
    expect(there).toEqual(expect.arrayContaining(kept));
    for (const id of there) expect(await blobs.get(id)).toMatchObject({ is: 'whole' });
  }
});
