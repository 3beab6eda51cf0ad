import type { Animal, TestRun } from '../../core/animal/animal.js';
import { wouldBeReactive } from '../../core/point-of-care/result.js';
import { said } from '../../core/said.js';
import type { LogRecord } from '../record.js';
import type { Ground } from '../views/ground.js';
import { kitTypeNamed } from '../views/test-runs.js';
import { type Raised, writerOf } from './flag.js';

type Seen = TestRun['seen'];

/** Kits of every formulary filed; where nobody knows the kit, the marks are read by any of them. */
const everyKit = ({ formulary, formularies }: Ground) =>
  [...(formulary?.kits ?? []), ...formularies.flatMap(({ document }) => document.kits)].filter(
    (kit, place, all) => all.indexOf(kit) === place,
  );

/** Whether marks would mean reactive in time, by the kit, or by any kit when it is not known. */
export function marksReactive(ground: Ground, kitType: string | null, seen: Seen): boolean {
  const kit = kitTypeNamed(ground, kitType);
  return kit === null ? everyKit(ground).some((one) => wouldBeReactive(one, seen)) : wouldBeReactive(kit, seen);
}

/** A reading that does not count, with marks that would have been reactive. It must not wait for the repeat unseen. */
export const hasUncountedMark = (ground: Ground, run: TestRun): boolean =>
  run.result === 'not-valid' && marksReactive(ground, run.kitType, run.seen);

/** What came after a mark that does not count and says more: a later reading that counts, or another method's result. */
export function laterWord(
  animal: Animal,
  run: TestRun,
): { readonly at: string; readonly by: TestRun['readRecord'] } | null {
  const since = run.readAt ?? '';
  const read = animal.runs
    .filter(({ schedule, result }) => schedule === run.schedule && (result === 'negative' || result === 'reactive'))
    .map(({ readAt, readRecord }) => ({ at: readAt ?? '', by: readRecord }));
  const told = animal.followUps
    .filter(({ schedule, says }) => schedule === run.schedule && says.is === 'result' && says.outcome !== 'unclear')
    .map(({ at, record }) => ({ at, by: record }));
  const later = [...read, ...told].filter(({ at }) => at > since).sort((a, b) => (a.at < b.at ? -1 : 1));
  return later[0] ?? null;
}

/**
 * Marks that would be reactive on a test that does not count. Words of others than the medical team only take the flag
 * on; a later result closes it.
 */
export function markFlags(animal: Animal, ground: Ground, standing: readonly LogRecord[]): Raised[] {
  return animal.runs.flatMap((run): Raised[] => {
    const read = standing.find((record) => record.id === run.readRecord);
    if (read === undefined || !hasUncountedMark(ground, run)) return [];
    const later = laterWord(animal, run);
    const by = standing.find((record) => record.id === later?.by)?.by;
    const faint = Object.values(run.seen).includes('faint');
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
          reason: said(`due.reason.test-${run.fault ?? 'outside-window'}`),
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
  });
}
