import type { Animal, RunReading, TestRun } from '../../../core/animal/animal.js';
import { settles } from '../../../core/animal/follow-up.js';
import { said } from '../../../core/said.js';
import { type Raised, writerOf } from '../../flag.js';
import type { LogRecord } from '../../record.js';

/** Readings that do not count, with a mark that would be reactive. They must not wait for the repeat unseen. */
export const uncountedMarks = ({ result, readings = [] }: TestRun): readonly RunReading[] =>
  result === 'reactive' ? [] : readings.filter(({ mark }) => mark === true);

export const hasUncountedMark = (run: TestRun): boolean => uncountedMarks(run).length > 0;

/**
 * What came after a mark that does not count and says more: a reading of another kit that counts, or another method's
 * result. Another reading of the same kit does not.
 */
export function laterWord(
  animal: Pick<Animal, 'runs' | 'followUps'>,
  { run, schedule }: TestRun,
  { at: since }: RunReading,
): { readonly at: string; readonly by: TestRun['readRecord'] } | null {
  const read = animal.runs
    .filter((one) => one.run !== run && one.schedule === schedule)
    .filter(({ result }) => result === 'negative' || result === 'reactive')
    .map(({ readAt, readRecord }) => ({ at: readAt ?? '', by: readRecord }));
  const told = animal.followUps
    .filter((one) => one.schedule === schedule && settles(one))
    .map(({ at, record }) => ({ at, by: record }));
  const later = [...read, ...told].filter(({ at }) => at > since).sort((a, b) => (a.at < b.at ? -1 : 1));
  return later[0] ?? null;
}

/**
 * Marks that would be reactive on a test that does not count, whichever reading of it stands. Words of others than the
 * medical team only take the flag on; a later result closes it.
 */
export function markFlags(
  animal: Pick<Animal, 'id' | 'name' | 'runs' | 'followUps'>,
  standing: readonly LogRecord[],
): Raised[] {
  return animal.runs.flatMap((run) => uncountedMarks(run).flatMap((mark) => flagOf(run, mark)));

  function flagOf(run: TestRun, mark: RunReading): Raised[] {
    const read = standing.find((record) => record.id === mark.record);
    if (read === undefined) return [];
    const later = laterWord(animal, run, mark);
    const by = standing.find((record) => record.id === later?.by)?.by;
    const faint = Object.values(mark.seen).includes('faint');
    return [
      {
        key: `mark-not-counted:${read.id}`,
        code: 'mark-not-counted',
        severity: 'stop',
        animal: animal.id,
        about: read.id,
        raisedAt: read.happenedAt,
        for: ['supervisor', 'medical', 'caregiver'],
        why: said(faint ? 'flag.mark-not-counted.faint' : 'flag.mark-not-counted', {
          animal: animal.name,
          lot: run.kitLot || said('desk.lot-unknown'),
          reason: said(`due.reason.test-${mark.fault ?? (mark.result === 'invalid' ? 'invalid' : 'outside-window')}`),
        }),
        by: read.by,
        ...writerOf(read),
        closedBy: 'medical',
        ...(later === null || by === undefined
          ? {}
          : {
              followUp: { said: said('flag.mark-not-counted.later'), by, at: later.at, closes: true, holds: false },
            }),
      },
    ];
  }
}
