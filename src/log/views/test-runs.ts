import type { TestRun } from '../../core/animal/animal.js';
import type { RunId } from '../../core/ids.js';
import { byOneClock, type Clocked } from '../../core/point-of-care/clocked.js';
import { lotsDiffer } from '../../core/point-of-care/kit.js';
import { resultOf } from '../../core/point-of-care/result.js';
import type { LogRecord } from '../record.js';
import type { Ground } from './ground.js';
import { begun, drawOf, sharing } from './run-of-draw.js';

/**
 * Fold draws, starts and readings into runs: all draws before all starts before all readings, each in order of
 * happening, for a test may be read on a device whose clock is behind that of the one that started it. What a reading
 * means is worked out here from the kit's data each time and is never stored, so a corrected start time or kit corrects
 * the result too.
 */
export function foldRuns(
  standing: readonly LogRecord[],
  ground: Ground,
  timed: (record: LogRecord) => Clocked,
): TestRun[] {
  const runs = new Map<RunId, TestRun>();
  for (const record of standing.toSorted((a, b) => stageOf(a) - stageOf(b))) {
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
          start: timed(record),
          startRecord,
          ...(untimed === true ? { untimed } : {}),
        });
        break;
      }
      case 'test-read': {
        const { run, seen, untimed } = record.body;
        const before = runs.get(run);
        if (before !== undefined) {
          const reading = timed(record);
          const { happenedAt: readAt, id: readRecord } = record;
          runs.set(run, { ...before, seen, readAt, reading, readRecord, ...(untimed === true ? { untimed } : {}) });
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
  return [...runs.values()].map((run) => ({ ...run, result: resultOfRun(run, ground) }));
}

const stageOf = ({ kind }: LogRecord): number => (kind === 'sample-drawn' ? 0 : kind === 'test-started' ? 1 : 2);

/** A run that is first heard of when its kit is started, or is given up before: it had its blood from another's draw. */
function ofAnotherDraw(runs: ReadonlyMap<RunId, TestRun>, run: RunId): TestRun | undefined {
  const from = drawOf(run);
  const drawn = from === null ? undefined : runs.get(from.run);
  return from === null || drawn === undefined ? undefined : sharing(drawn, run, from.schedule);
}

function resultOfRun(run: TestRun, ground: Ground): TestRun['result'] {
  if (run.result === 'abandoned' || run.readAt === null) return run.result;
  const kit = kitTypeNamed(ground, run.kitType);
  // A reading without a known start or kit says nothing: its window cannot be checked.
  if (kit === null || run.start === null || run.reading === null) return 'not-valid';
  if (run.untimed === true) return 'not-valid';
  if (kit.conjugateLotMustMatch && lotsDiffer(run.kitLot ?? '', run.conjugateLot ?? '')) return 'not-valid';
  // Started on one phone and read on another: the time between is counted by one clock.
  const [startedAt, readAt] = byOneClock(run.start, run.reading);
  return resultOf(kit, startedAt, readAt, run.seen).result;
}

/** A kit type of the formulary in force, else of any version filed before: an old run keeps its meaning. */
export function kitTypeNamed(ground: Ground, id: string | null) {
  if (id === null) return null;
  const inForce = ground.formulary?.kits.find((kit) => kit.id === id);
  if (inForce !== undefined) return inForce;
  for (const filed of ground.formularies) {
    const kit = filed.document.kits.find((one) => one.id === id);
    if (kit !== undefined) return kit;
  }
  return null;
}
