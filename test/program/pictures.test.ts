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
