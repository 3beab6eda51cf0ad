import type { Animal } from '../../../core/animal/animal.js';
import { derived } from '../../../core/derived.js';
import type { AnimalId } from '../../../core/ids.js';
import type { RunHolderRow } from '../../read-rows.js';
import type { LogRecord } from '../../record.js';
import { ofKinds } from '../parts.js';
import { drawOf } from './run-of-draw.js';

/**
 * The names under which tests of one animal stand on record, each with the record that named it first, whatever was taken
 * back since. A test of shared blood goes under the name of the draw. `animal` is null for one that was never taken in.
 */
export function runHolders(
  id: AnimalId,
  animal: Animal | null,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
): readonly RunHolderRow[] {
  const called = animal === null ? id : animal.name || animal.label || id;
  return holdersIn(named(records), named(standing), id, called);
}

const named = ofKinds('sample-drawn', 'test-started', 'test-read');
type Named = ReturnType<typeof named>;

const holdersIn = derived(
  (records: Named, standing: Named, animal: AnimalId, called: string): readonly RunHolderRow[] => {
    const now = new Set(standing.map(runOf));
    const rows = new Map<string, RunHolderRow>();
    for (const record of records) {
      const run = runOf(record);
      const { id: first, happenedAt: at, by } = record;
      const before = rows.get(run);
      if (before !== undefined && (before.at < at || (before.at === at && before.record <= first))) continue;
      rows.set(run, { run, animal, called, record: first, at, by, stands: now.has(run) ? 1 : 0 });
    }
    return [...rows.values()];
  },
);

const runOf = ({ body: { run } }: Named[number]): string => drawOf(run)?.run ?? run;
