import { randomUUID } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { BlobId } from '../../core/animal/photo.js';
import { said } from '../../core/said.js';
import type { Blobs, FoundBlob } from '../../log/blobs.js';
import { type FileTrouble, StoreTrouble } from '../../log/store.js';
import { oneLine } from '../trouble.js';
import { blobIdOf } from './memory.js';

/** Folder of the pictures inside the data folder. */
export const blobsFolder = 'blobs';

/** Ending of what is being written; left behind only by a program that was ended in the middle. */
const partial = /\.part$/;
/** Nobody writes one picture for so long: what is older was left behind. Our choice, no source. */
const abandoned_ms = 60 * 60 * 1000;

/**
 * Blobs as files in a folder, `ab/cdef...` by the digits of their name. Each is written beside its place, brought to the
 * disk and renamed, so that under a name there is all of it or nothing. The folder is made by the first `put`.
 */
export function folderBlobs(folder: string): Blobs {
  let cleared: Promise<void> | null = null;
  const fileOf = (id: BlobId): string => join(folder, id.slice(0, 2), id.slice(2));

  const get = async (id: BlobId): Promise<FoundBlob> => {
    const file = fileOf(id);
    let bytes: Buffer;
    try {
      bytes = await readFile(file);
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return { is: 'missing' };
      throw troubleAt(file, error);
    }
    return blobIdOf(bytes) === id ? { is: 'whole', bytes } : { is: 'damaged' };
  };

  return {
    put: async (bytes) => {
      const id = blobIdOf(bytes);
      if ((await get(id)).is === 'whole') return id;
      const file = fileOf(id);
      try {
        await mkdir(dirname(file), { recursive: true });
        cleared ??= clearAbandoned(folder);
        await cleared;
        await writeThrough(bytes, `${file}.${randomUUID()}.part`, file);
        // The names on the way to it have to be on the disk too.
        for (const one of [dirname(file), folder]) await syncFolder(one);
      } catch (error) {
        throw troubleAt(file, error);
      }
      return id;
    },
    get,
    has: async (id) => (await stat(fileOf(id)).catch(() => null)) !== null,
    list: async () => {
      const ids: BlobId[] = [];
      for (const { shelf, name } of await filesIn(folder)) {
        const id = BlobId.safeParse(shelf + name);
        if (id.success) ids.push(id.data);
      }
      return ids.sort();
    },
    remove: async (ids) => {
      for (const id of ids) await rm(fileOf(id), { force: true });
    },
  };
}

async function writeThrough(bytes: Uint8Array, beside: string, file: string): Promise<void> {
  try {
    const handle = await open(beside, 'wx');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(beside, file);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}

/** Windows lets no folder be opened; it keeps names by itself. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function filesIn(folder: string): Promise<{ shelf: string; name: string }[]> {
  const files: { shelf: string; name: string }[] = [];
  const shelves = await readdir(folder).catch((error: unknown) => {
    if (codeOf(error) === 'ENOENT') return [];
    throw troubleAt(folder, error);
  });
  for (const shelf of shelves.filter((name) => /^[0-9a-f]{2}$/.test(name))) {
    for (const name of await readdir(join(folder, shelf))) files.push({ shelf, name });
  }
  return files;
}

async function clearAbandoned(folder: string): Promise<void> {
  for (const { shelf, name } of await filesIn(folder)) {
    if (!partial.test(name)) continue;
    const file = join(folder, shelf, name);
    const found = await stat(file).catch(() => null);
    if (found !== null && Date.now() - found.mtimeMs > abandoned_ms) await rm(file, { force: true });
  }
}

const troubles: Readonly<Record<string, FileTrouble>> = {
  ENOSPC: 'full',
  EDQUOT: 'full',
  EACCES: 'folder-not-writable',
  EPERM: 'folder-not-writable',
  EROFS: 'folder-not-writable',
};

function troubleAt(file: string, error: unknown): StoreTrouble {
  const code = troubles[codeOf(error)] ?? 'failed';
  const detail = oneLine(error instanceof Error ? error.message : String(error));
  return new StoreTrouble(code, said(`server.store.${code}`, { file, detail }), { cause: error });
}

const codeOf = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
