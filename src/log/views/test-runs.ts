import type { TestRun } from '../../core/animal/animal.js';
import type { RunId } from '../../core/ids.js';
import { lotsDiffer } from '../../core/point-of-care/kit.js';
import { resultOf } from '../../core/point-of-care/result.js';
import type { LogRecord } from '../record.js';
import { begun, drawOf, sharing } from './run-of-draw.js';
import type { Shelter } from './shelter.js';

/**
 * Fold draws, starts and readings into runs, in order of happening. What a reading means is worked out here from the
 * kit's data each time and is never stored, so a corrected start time or kit corrects the result too.
 */
export function foldRuns(standing: readonly LogRecord[], shelter: Shelter): TestRun[] {
  const runs = new Map<RunId, TestRun>();
  for (const record of standing) {
    switch (record.kind) {
      case 'sample-drawn': {
        const { run, schedule, volume_ul, usable, round } = record.body;
        const before = runs.get(run) ?? begun(run, schedule);
        runs.set(run, {
          ...before,
          round,
          drawnAt: usable ? record.happenedAt : before.drawnAt,
          volume_ul: before.volume_ul + volume_ul,
        });
        break;
      }
      case 'test-started': {
        const { run, schedule, kitType, lot, kitLot, conjugateLot, round, untimed } = record.body;
        const before = runs.get(run) ?? ofAnotherDraw(runs, run) ?? begun(run, schedule);
        const startRecord = record.id;
        runs.set(run, {
          ...before,
          round,
          kitType,
          lot,
          kitLot,
          conjugateLot,
          startedAt: record.happenedAt,
          startRecord,
          ...(untimed === true ? { untimed } : {}),
        });
        break;
      }
      case 'test-read': {
        const { run, seen, untimed } = record.body;
        const before = runs.get(run);
        if (before !== undefined) {
          const readAt = record.happenedAt;
          runs.set(run, { ...before, seen, readAt, readRecord: record.id, ...(untimed === true ? { untimed } : {}) });
        }
        break;
      }
      case 'test-abandoned': {
        const before = runs.get(record.body.run) ?? ofAnotherDraw(runs, record.body.run);
        if (before !== undefined) {
          runs.set(record.body.run, {
            ...before,
            result: 'abandoned',
            readAt: record.happenedAt,
            readRecord: record.id,
          });
        }
        break;
      }
      default:
        break;
    }
  }
  return [...runs.values()].map((run) => ({ ...run, result: resultOfRun(run, shelter) }));
}

/** A run that is first heard of when its kit is started, or is given up before: it had its blood from another's draw. */
function ofAnotherDraw(runs: ReadonlyMap<RunId, TestRun>, run: RunId): TestRun | undefined {
  const from = drawOf(run);
  const drawn = from === null ? undefined : runs.get(from.run);
  return from === null || drawn === undefined ? undefined : sharing(drawn, run, from.schedule);
}

function resultOfRun(run: TestRun, shelter: Shelter): TestRun['result'] {
  if (run.result === 'abandoned' || run.readAt === null) return run.result;
  const kit = kitTypeNamed(shelter, run.kitType);
  // A reading without a known start or kit says nothing: its window cannot be checked.
  if (kit === null || run.startedAt === null) return 'not-valid';
  if (run.untimed === true) return 'not-valid';
  if (kit.conjugateLotMustMatch && lotsDiffer(run.kitLot ?? '', run.conjugateLot ?? '')) return 'not-valid';
  return resultOf(kit, run.startedAt, run.readAt, run.seen).result;
}

/** A kit type of the formulary in force, else of any version filed before: an old run keeps its meaning. */
export function kitTypeNamed(shelter: Shelter, id: string | null) {
  if (id === null) return null;
  const inForce = shelter.formulary?.kits.find((kit) => kit.id === id);
  if (inForce !== undefined) return inForce;
  for (const filed of shelter.formularies) {
    const kit = filed.document.kits.find((one) => one.id === id);
    if (kit !== undefined) return kit;
  }
  return null;
}
