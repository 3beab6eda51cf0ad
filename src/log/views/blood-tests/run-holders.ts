import type { Animal } from '../../../core/animal/animal.js';
import type { AnimalId } from '../../../core/ids.js';
import type { LogRecord } from '../../record.js';
import type { RunHolderRow } from '../../rows/read-rows.js';
import { effective } from '../effective.js';
import { drawOf } from './run-of-draw.js';

/**
 * The names under which tests of one animal stand on record, each with the record that named it first, whatever was taken
 * back since. A test of shared blood goes under the name of the draw. `animal` is null for one that was never taken in.
 */
export function runHolders(id: AnimalId, animal: Animal | null, records: readonly LogRecord[]): RunHolderRow[] {
  if (!records.some((record) => runOf(record) !== null)) return [];
  const called = animal === null ? id : animal.name || animal.label || id;
  const standing = new Set(effective(records).map(runOf));
  const rows = new Map<string, RunHolderRow>();
  for (const record of records) {
    const run = runOf(record);
    if (run === null) continue;
    const { id: first, happenedAt: at, by } = record;
    const before = rows.get(run);
    if (before !== undefined && (before.at < at || (before.at === at && before.record <= first))) continue;
    rows.set(run, { run, animal: id, called, record: first, at, by, stands: standing.has(run) ? 1 : 0 });
  }
  return [...rows.values()];
}

function runOf({ kind, body }: LogRecord): string | null {
  if (kind !== 'sample-drawn' && kind !== 'test-started' && kind !== 'test-read') return null;
  return drawOf(body.run)?.run ?? body.run;
}
