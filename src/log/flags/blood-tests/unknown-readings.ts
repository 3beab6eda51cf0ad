import { derived } from '../../../core/derived.js';
import type { AnimalId } from '../../../core/ids.js';
import { said } from '../../../core/said.js';
import { deskAndMedical, type Raised, writerOf } from '../../flag.js';
import type { LogRecord } from '../../record.js';
import { foldRuns } from '../../views/blood-tests/test-runs.js';
import { effective } from '../../views/effective.js';
import type { Ground } from '../../views/ground.js';
import { readingsElsewhere } from '../entry-flags.js';
import { markFlags } from './mark-flags.js';
import { reactiveFlag } from './unsettled-flags.js';

/** Reactive readings, marks that do not count, and readings of tests never begun there, of an animal that nobody has taken in: it has no name, and a cage. */
export const unknownReadings = derived(
  (records: readonly LogRecord[], ground: Ground, id: AnimalId): readonly Raised[] => {
    if (!records.some(({ kind }) => kind === 'test-read')) return [];
    const standing = effective(records);
    const runs = foldRuns(standing, records, ground);
    const reactive = runs.flatMap((run): Raised[] => {
      const read = run.result === 'reactive' ? standing.find((record) => record.id === run.readRecord) : undefined;
      return read === undefined ? [] : [reactiveFlag({ id, name: id }, run, read, null)];
    });
    const elsewhere = readingsElsewhere(standing).map(
      (read): Raised => ({
        key: `reading-elsewhere:${read.id}`,
        code: 'reading-elsewhere',
        severity: 'stop',
        animal: id,
        about: read.id,
        raisedAt: read.happenedAt,
        for: deskAndMedical,
        why: said('flag.reading-elsewhere', { animal: id }),
        by: read.by,
        ...writerOf(read),
      }),
    );
    return [...elsewhere, ...reactive, ...markFlags({ id, name: id, runs, followUps: [] }, standing)];
  },
);
