import {
  closeSync,
  cpSync,
  createReadStream,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { extract } from 'tar';
import type { BlobId } from '../../core/animal/photo.js';
import { no, type Outcome, ok } from '../../core/said.js';
import { copyBlobs } from '../../store/blobs/copy.js';
import { blobsFolder, folderBlobs } from '../../store/blobs/folder.js';
import { storeFromExport } from '../../store/sqlite/from-export.js';
import { openStore, storeFile } from '../../store/sqlite/open.js';
import { headsFile } from '../../store/tree-heads.js';
import { oneLine } from '../../store/trouble.js';
import { verifyStore } from '../../store/verify.js';
import { unseal } from './seal.js';

export interface PutBack {
  readonly records: number;
  /** When the last record had come in, UTC ISO text; null of an empty log. */
  readonly receivedAt: string | null;
  readonly zone: string;
  /** Pictures that are not what their names say any more: left behind. */
  readonly damaged: readonly BlobId[];
}

/**
 * Put records back into a folder that holds none: from a copy, sealed or not, or from a whole export. What the file is, it says
 * itself. Writes over nothing, and makes nothing of a copy that is not whole.
 */
export async function putBack(
  file: string,
  to: string,
  passphrase: string | null,
  now: string,
): Promise<Outcome<PutBack>> {
  const target = join(to, storeFile);
  if (existsSync(target)) return no('server.salvage.target-taken', { file: target });
  const kind = kindOf(file);
  const isNew = !existsSync(to);
  mkdirSync(to, { recursive: true });
  // What was cut off before is nobody's.
  for (const name of readdirSync(to)) if (name.startsWith(unfinished)) rmSync(join(to, name), { recursive: true });
  const work = mkdtempSync(join(tmpdir(), 'roundhand-put-back-'));
  const making = mkdtempSync(join(to, unfinished));
  try {
    if (kind === 'export') {
      const lines = createInterface({ input: createReadStream(file), crlfDelay: Number.POSITIVE_INFINITY });
      const made = await storeFromExport(lines, making, now);
      return made.ok ? await putInPlace(making, to, `${file}.${blobsFolder}`) : made;
    }
    if (kind === 'unknown') return no('copies.not-a-copy', { file });
    let packed = file;
    if (kind === 'sealed') {
      if (passphrase === null) return no('copies.sealed', { file });
      packed = join(work, 'copy.tar');
      try {
        await unseal(file, packed, passphrase);
      } catch {
        return no('copies.not-opened', { file });
      }
    }
    const unpacked = join(work, 'unpacked');
    mkdirSync(unpacked);
    try {
      await extract({ file: packed, cwd: unpacked, strict: true });
    } catch (error) {
      return no('copies.not-unpacked', {
        file,
        detail: oneLine(error instanceof Error ? error.message : String(error)),
      });
    }
    if (!existsSync(join(unpacked, storeFile))) return no('copies.not-a-copy', { file });
    const looked = await isWhole(unpacked);
    if (!looked) return no('copies.not-whole', { file });
    for (const name of [headsFile, storeFile])
      if (existsSync(join(unpacked, name))) cpSync(join(unpacked, name), join(making, name));
    return await putInPlace(making, to, join(unpacked, blobsFolder));
  } finally {
    rmSync(making, { recursive: true, force: true });
    if (isNew && readdirSync(to).length === 0) rmSync(to, { recursive: true });
    rmSync(work, { recursive: true, force: true });
  }
}

async function isWhole(folder: string): Promise<boolean> {
  const store = await openStore(folder);
  if (!store.ok) return false;
  try {
    return (await verifyStore(store.value)).whole;
  } finally {
    await store.value.close();
  }
}

/** What is being made stands under this name until it is whole. */
const unfinished = '.put-back-';

/**
 * Pictures first, the records last and in one step: whatever ends it before, there are no records, and it can be begun anew.
 * Gives how far the records go.
 */
async function putInPlace(making: string, to: string, pictures: string): Promise<Outcome<PutBack>> {
  const { damaged } = await copyBlobs(folderBlobs(pictures), folderBlobs(join(to, blobsFolder)));
  const store = await openStore(making);
  if (!store.ok) return store;
  try {
    const { seq, receivedAt } = await store.value.head();
    const { zone } = await store.value.shelter();
    await store.value.close();
    for (const name of [headsFile, storeFile])
      if (existsSync(join(making, name))) renameSync(join(making, name), join(to, name));
    return ok({ records: seq, receivedAt, zone, damaged });
  } finally {
    await store.value.close();
  }
}

/** By the first bytes: age-encryption.org/v1, the mark of a tar archive (POSIX ustar, at 257), or a line of JSON. */
function kindOf(file: string): 'sealed' | 'packed' | 'export' | 'unknown' {
  const head = Buffer.alloc(512);
  const handle = openSync(file, 'r');
  try {
    readSync(handle, head, 0, head.length, 0);
  } finally {
    closeSync(handle);
  }
  if (head.toString('latin1').startsWith('age-encryption.org/v1\n')) return 'sealed';
  if (head.toString('latin1', 257, 262) === 'ustar') return 'packed';
  return head[0] === 0x7b ? 'export' : 'unknown';
}
