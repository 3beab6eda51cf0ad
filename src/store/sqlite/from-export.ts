import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { no, type Outcome } from '../../core/said.js';
import { canonical } from '../../log/canonical.js';
import { hash, noHash } from '../../log/hash.js';
import type { KeptEnvelope } from '../../log/store.js';
import { sha256 } from '../sha256.js';
import { fromRow, toRow } from '../sql/tables.js';
import { fillStore } from './fill.js';
import { openStore, storeFile } from './open.js';

/**
 * A new store out of the lines of a whole export, in `to`, which must not hold records: the same places, hashes and times of
 * arrival, so that it is the same history to every device and every head that was signed. Says no, and leaves no records
 * behind, at the first line that is not what its hash says.
 */
export async function storeFromExport(
  lines: AsyncIterable<string>,
  to: string,
  now: string,
): Promise<Outcome<{ readonly records: number; readonly receivedAt: string | null }>> {
  const target = join(to, storeFile);
  if (existsSync(target)) return no('server.salvage.target-taken', { file: target });
  const begun = await openStore(to);
  if (!begun.ok) return begun;
  await begun.value.close();
  let broken: number | null = null;
  async function* proven(): AsyncGenerator<KeptEnvelope> {
    let end = { seq: 0, hash: noHash };
    for await (const line of lines) {
      if (line.trim() === '') continue;
      const record = recordIn(line, end.hash);
      if (record?.seq !== end.seq + 1) {
        broken = end.seq + 1;
        return;
      }
      yield record;
      end = record;
    }
  }
  const filled = await fillStore(to, proven(), now);
  if (filled.ok && broken === null && filled.value.records > 0) return filled;
  for (const rest of ['', '-wal', '-shm']) rmSync(target + rest, { force: true });
  if (!filled.ok) return filled;
  return no('server.export.line-wrong', { seq: broken ?? 1 });
}

/** The record of a line, as it would lie in a store, when its hash holds there; null else. */
function recordIn(line: string, before: string): KeptEnvelope | null {
  try {
    const read = JSON.parse(line) as KeptEnvelope;
    const kept = fromRow(toRow(read, before));
    // What a store would not keep may not be there either.
    const same = canonical(kept) === canonical(read);
    return same && hash(before, kept, sha256) === read.hash ? kept : null;
  } catch {
    return null;
  }
}
