import { createHash } from 'node:crypto';
import { createReadStream, existsSync, writeFileSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Blobs } from '../../log/blobs.js';
import { canonical } from '../../log/canonical.js';
import { copyBlobs } from '../../store/blobs/copy.js';
import { blobsFolder, folderBlobs } from '../../store/blobs/folder.js';
import { storeFile } from '../../store/sqlite/open.js';
import { type Heads, headsFile } from '../../store/tree-heads.js';

/** What a copy is made of. */
export interface Copied {
  /** Copies the records to a file and verifies it. */
  readonly backUp: (to: string) => Promise<void>;
  readonly blobs: Blobs;
  readonly heads: Pick<Heads, 'kept'> | null;
}

/**
 * A verified copy of the records, all pictures that are whole and the heads that were signed, laid out in an empty folder as
 * in a data folder. Gives the names of its parts. Names of people and keys are in no copy.
 */
export async function gather({ backUp, blobs, heads }: Copied, folder: string): Promise<readonly string[]> {
  // The records first: every picture that one of them names was here before it, or is not here at all.
  await backUp(join(folder, storeFile));
  await mkdir(join(folder, blobsFolder));
  await copyBlobs(blobs, folderBlobs(join(folder, blobsFolder)));
  const kept = heads?.kept() ?? [];
  if (kept.length > 0) writeFileSync(join(folder, headsFile), kept.map((head) => `${canonical(head)}\n`).join(''));
  return [storeFile, blobsFolder, headsFile].filter((part) => existsSync(join(folder, part)));
}

export async function digestOf(file: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(file)) hash.update(piece);
  return hash.digest('hex');
}
