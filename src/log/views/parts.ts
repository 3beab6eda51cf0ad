import { derived, growing, grown, partBy } from '../../core/derived.js';
import type { RecordId } from '../../core/ids.js';
import type { Kind } from '../kinds/index.js';
import type { LogRecord } from '../record.js';

/**
 * Records of some kinds, out of those that stand: what is worked out from them stands as long as no other one of these
 * kinds comes in.
 */
export const ofKinds = <K extends Kind>(...kinds: readonly K[]): ((records: readonly LogRecord[]) => Part<K>) =>
  partOf(kinds.toSorted().join(' ')) as (records: readonly LogRecord[]) => Part<K>;

type Part<K extends Kind> = readonly (LogRecord & { readonly kind: K })[];

/** One list for the same kinds, whoever asks; there are fewer combinations of kinds than this. */
const partOf = derived((names: string) => {
  const [first, ...others] = names.split(' ');
  return partBy<LogRecord, LogRecord>(
    (record): record is LogRecord => record.kind === first || (others.length > 0 && others.includes(record.kind)),
  );
}, 200);

/** Every record that says it is a correction. */
export const correctionsIn = partBy<LogRecord, LogRecord>(
  (record): record is LogRecord => record.corrects !== undefined,
);

/**
 * Records of some kinds as they were written, with everything that corrects or is corrected, of whatever kind: what takes
 * whose place comes out as it does with all of them.
 */
export function withCorrections(...kinds: readonly Kind[]): (records: readonly LogRecord[]) => readonly LogRecord[] {
  const those = (records: readonly LogRecord[], among: readonly LogRecord[]): readonly LogRecord[] => {
    const named = new Set<RecordId | undefined>(correctionsIn(records).map(({ corrects }) => corrects));
    return among.filter(({ id, kind, corrects }) => kinds.includes(kind) || corrects !== undefined || named.has(id));
  };
  return growing<LogRecord, [], readonly LogRecord[]>(
    (records) => those(records, records),
    (before, { more }, records) => {
      // A correction may bring in what was of no interest before.
      if (correctionsIn(more).length > 0) return undefined;
      const own = those(records, more);
      return own.length === 0 ? before : grown(before, own, those(records, records));
    },
  );
}
