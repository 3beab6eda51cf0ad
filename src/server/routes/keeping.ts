import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { create } from 'tar';
import type { Verified } from '../../api/wire-verified.js';
import { StoreTrouble } from '../../log/store.js';
import type { SignedHead } from '../../log/tree/signed-head.js';
import { verifyStore } from '../../store/verify.js';
import { verifyPictures } from '../../store/verify-pictures.js';
import type { Say } from '../../words/say.js';
import type { Context } from '../context.js';
import { gather } from '../copies/gather.js';
import { type Refusal, refuse, refuseBecause } from '../refusal.js';

export async function verify(context: Context, say: Say): Promise<Verified> {
  const report = await verifyStore(context.store);
  const { whole, pictures, missing, damaged, unreferenced } = await verifyPictures(context.store, context.blobs);
  const { seq, hash, receivedAt, rowsOn } = report.head;
  return {
    whole: report.whole && whole,
    pictures: { pictures, missing: [...missing], damaged: [...damaged], unreferenced: [...unreferenced] },
    head: { seq, hash, receivedAt },
    rowsOn,
    records: report.records,
    chain: report.chain.whole
      ? { whole: true, brokenAt: null, fault: null }
      : { whole: false, brokenAt: report.chain.brokenAt, fault: report.chain.fault },
    unreadable: report.unreadable.map((one) => ({ seq: one.seq, id: one.id, why: say(one.why) })),
    engine: [...report.engine],
    tables: report.tables.map((table) => ({ ...table })),
  };
}

export async function signedHead({ heads }: Pick<Context, 'heads'>): Promise<SignedHead | Refusal> {
  if (heads === null) return refuse('head-not-offered');
  const head = await heads.sign();
  return head.ok ? head.value : refuseBecause('head-not-signed', head.why);
}

export interface Backup {
  readonly name: string;
  readonly file: Readable;
}

/**
 * A verified copy of the records and of all pictures that are whole, as one archive to be unpacked into an empty data
 * folder. It is made in a folder of its own that goes when the sending ends, however it ends.
 */
export async function backup(context: Context): Promise<Backup | Refusal> {
  if (context.backUp === null) return refuse('backup-not-offered');
  const folder = mkdtempSync(join(tmpdir(), 'roundhand-backup-'));
  const clear = (): void => rmSync(folder, { recursive: true, force: true });
  let parts: readonly string[];
  try {
    parts = await gather({ ...context, backUp: context.backUp }, folder);
  } catch (error) {
    clear();
    if (error instanceof StoreTrouble && error.code === 'damaged') return refuse('backup-not-whole');
    throw error;
  }
  const file = Readable.from(create({ cwd: folder, portable: true }, [...parts]));
  file.once('close', clear);
  const at = context.clock().slice(0, 16).replace(/[:T]/g, '-');
  return { name: `roundhand-${at}.tar`, file };
}
