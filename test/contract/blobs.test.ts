import { mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { StoreTrouble } from '../../src/log/store.js';
import { folderBlobs } from '../../src/store/blobs/folder.js';
import { memoryBlobs } from '../../src/store/blobs/memory.js';
import { blobsContract, type OpenedBlobs } from './blobs.js';

const inFolder = (): OpenedBlobs & { readonly folder: string } => {
  const above = mkdtempSync(join(tmpdir(), 'roundhand-blobs-'));
  const folder = join(above, 'blobs');
  return {
    folder,
    blobs: folderBlobs(folder),
    another: () => folderBlobs(folder),
    spoil: (id, bytes) => writeFileSync(join(folder, id.slice(0, 2), id.slice(2)), bytes),
    dispose: () => rmSync(above, { recursive: true, force: true }),
  };
};

blobsContract('memory', () => ({ blobs: memoryBlobs(), another: null, spoil: null, dispose: () => undefined }));
blobsContract('a folder', inFolder);

it('passes over what a program that was ended left half written, and clears it away later', async () => {
  const { blobs, folder, dispose } = inFolder();
  try {
    const id = await blobs.put(Uint8Array.of(1));
    const shelf = join(folder, id.slice(0, 2));
    const left = join(shelf, `${id.slice(2, -1)}0.77-1.part`);
    writeFileSync(left, 'half a pict');
    expect(await blobs.list()).toEqual([id]);
    utimesSync(left, 0, 0);
    await folderBlobs(folder).put(Uint8Array.of(2));
    expect(readdirSync(shelf)).toEqual([id.slice(2)]);
  } finally {
    dispose();
  }
});

it('says in a sentence that names the file when nothing can be written', async () => {
  const { blobs, folder, dispose } = inFolder();
  try {
    // A file where the folder should be: no rights can hide that, also not those of an administrator.
    mkdirSync(join(folder, '..'), { recursive: true });
    writeFileSync(folder, '');
    const trouble = await blobs.put(Uint8Array.of(1)).catch((error: unknown) => error);
    expect(trouble).toBeInstanceOf(StoreTrouble);
    expect((trouble as StoreTrouble).why.with?.file).toContain(folder);
  } finally {
    dispose();
  }
});
