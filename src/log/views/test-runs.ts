import type { RunReading, TestFault, TestRun } from '../../core/animal/animal.js';
import { byOneClock, type Clocked } from '../../core/clocked.js';
import type { KitType } from '../../core/dosing/formulary.js';
import type { RunId } from '../../core/ids.js';
import { lotsDiffer } from '../../core/point-of-care/kit.js';
import { resultOf } from '../../core/point-of-care/result.js';
import { phaseAt, windowOf } from '../../core/point-of-care/window.js';
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
        const before = runs.get(record.body.run);
        if (before !== undefined) runs.set(record.body.run, withReading(before, record, timed(record), ground));
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
  return [...runs.values()].map((run) => judged(run, ground));
}

/** The run with what its reading means, or why it means nothing. */
function judged(run: TestRun, ground: Ground): TestRun {
  const fault = faultOf(run, ground);
  return fault === null ? { ...run, result: resultOfRun(run, ground) } : { ...run, result: 'not-valid', fault };
}

/**
 * The run with one reading more. Two people may read one kit, and of readings that disagree the more serious one stands,
 * whoever came later; of two that say the same, the later one.
 */
function withReading(before: TestRun, record: LogRecord<'test-read'>, reading: Clocked, ground: Ground): TestRun {
  const { seen, untimed } = record.body;
  const { happenedAt: at, id, by } = record;
  const readings = before.readings ?? [];
  const read = { seen, readAt: at, reading, readRecord: id, ...(untimed === true ? { untimed } : {}) };
  const after: TestRun = { ...before, ...read };
  const { result } = judged(after, ground);
  const all = [...readings, { record: id, at, by, seen, result }];
  const standing = readings.find((one) => one.record === before.readRecord);
  const kit = kitTypeNamed(ground, before.kitType);
  const stays = standing !== undefined && weightOf(standing, kit) > weightOf({ result, seen }, kit);
  return { ...(stays ? before : after), readings: all };
}

type Read = Pick<RunReading, 'result' | 'seen'>;

/** Whether each zone of the kit was looked at. */
const isWhole = ({ seen }: Pick<Read, 'seen'>, kit: KitType | null): boolean =>
  kit?.zones.every((zone) => seen[zone.id] !== undefined) ?? Object.keys(seen).length > 0;

/** How serious a reading is; one that says nothing by its time, or did not look at every zone, is the least. */
function weightOf(read: Read, kit: KitType | null): number {
  if (read.result === 'reactive') return Object.values(read.seen).includes('faint') ? 4 : 5;
  if (read.result === 'invalid') return isWhole(read, kit) ? 3 : 1;
  return read.result === 'negative' ? 2 : 0;
}

/** What the marks of a reading mean, whatever the time; null when not every zone was looked at. */
export function marksMean(run: TestRun, read: Read, ground: Ground): string | null {
  const kit = kitTypeNamed(ground, run.kitType);
  if (!isWhole(read, kit)) return null;
  if (kit === null || run.startedAt === null) return JSON.stringify(Object.entries(read.seen).sort());
  return resultOf(kit, run.startedAt, windowOf(kit, run.startedAt).opensAt, read.seen).result;
}

const stageOf = ({ kind }: LogRecord): number => (kind === 'sample-drawn' ? 0 : kind === 'test-started' ? 1 : 2);

/** A run that is first heard of when its kit is started, or is given up before: it had its blood from another's draw. */
function ofAnotherDraw(runs: ReadonlyMap<RunId, TestRun>, run: RunId): TestRun | undefined {
  const from = drawOf(run);
  const drawn = from === null ? undefined : runs.get(from.run);
  return from === null || drawn === undefined ? undefined : sharing(drawn, run, from.schedule);
}

/** Why a reading says nothing, whatever was seen; null when there is none, or it was in order. */
function faultOf(run: TestRun, ground: Ground): TestFault | null {
  if (run.result === 'abandoned' || run.readAt === null) return null;
  const kit = kitTypeNamed(ground, run.kitType);
  // A reading without a known start or kit says nothing: its window cannot be checked.
  if (kit === null || run.start === null || run.reading === null) return 'kit-unknown';
  if (run.untimed === true) return 'no-times';
  if (kit.conjugateLotMustMatch && lotsDiffer(run.kitLot ?? '', run.conjugateLot ?? '')) return 'lots-differ';
  const [startedAt, readAt] = byOneClock(run.start, run.reading);
  const { phase } = phaseAt(windowOf(kit, startedAt), readAt);
  return phase === 'running' ? 'read-early' : phase === 'closed' ? 'read-late' : null;
}

function resultOfRun(run: TestRun, ground: Ground): TestRun['result'] {
  const kit = kitTypeNamed(ground, run.kitType);
  if (run.result === 'abandoned' || kit === null || run.start === null || run.reading === null) return run.result;
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
