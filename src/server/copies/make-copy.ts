import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdtempSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { create } from 'tar';
import { no, type Outcome, ok } from '../../core/said.js';
import { StoreTrouble } from '../../log/store.js';
import { type Copied, digestOf, gather } from './gather.js';
import { filesIn, sweep, whyNot, workPrefix } from './place.js';
import { copiesToDrop, copyName } from './rule.js';
import { seal, unseal } from './seal.js';

export interface CopyPlace {
  /** A folder that is there: one that is missing is a disk that is not plugged in, and is not made. */
  readonly folder: string;
  /** Seals the copy; null: anybody who has the copy can read it. */
  readonly passphrase: string | null;
  /** How slow a guess at the passphrase is made; the library's own when left out. */
  readonly workFactor?: number;
}

/**
 * Make one copy in a place, read it back and compare, and only then give it its name and let those go that the rule does not
 * keep. Says no with one sentence; what was begun is then gone and every older copy still there. `at`: UTC ISO text.
 */
export async function makeCopy(
  what: Copied,
  { folder, passphrase, workFactor }: CopyPlace,
  at: string,
): Promise<Outcome<string>> {
  const place = filesIn(folder);
  if (!place.ok) return place;
  const file = join(folder, copyName(at, passphrase !== null));
  if (existsSync(file)) return no('cli.file-exists', { file });
  const partial = `${file}.part`;
  const work = mkdtempSync(join(tmpdir(), workPrefix));
  try {
    sweep(folder, Date.now());
    const parts = await gather(what, work);
    const packed = join(work, 'copy.tar');
    await create({ cwd: work, portable: true, file: packed }, [...parts]);
    const wanted = await digestOf(packed);
    rmSync(partial, { force: true });
    if (passphrase === null) copyFileSync(packed, partial);
    else await seal(packed, partial, passphrase, workFactor);
    flush(partial);
    const found = passphrase === null ? await digestOf(partial) : await unseal(partial, null, passphrase);
    if (found !== wanted) throw new Error('what was read back is not what was written');
    renameSync(partial, file);
    for (const old of copiesToDrop(readdirSync(folder))) rmSync(join(folder, old), { force: true });
    return ok(file);
  } catch (error) {
    rmSync(partial, { force: true });
    if (error instanceof StoreTrouble && error.code === 'damaged') return no('copies.records-damaged');
    return { ok: false, why: whyNot(error, folder) };
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

function flush(file: string): void {
  const handle = openSync(file, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
