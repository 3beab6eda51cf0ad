import type { RunReading, TestFault, TestRun } from '../../../core/animal/animal.js';
import { withSecondLooks } from '../../../core/bedside/second-look.js';
import { byOneClock, type Clocked } from '../../../core/clocked.js';
import type { KitType } from '../../../core/dosing/formulary.js';
import type { RunId } from '../../../core/ids.js';
import { lotsDiffer } from '../../../core/point-of-care/kit.js';
import { hasTestMark, resultOf } from '../../../core/point-of-care/result.js';
import { phaseAt, windowOf } from '../../../core/point-of-care/window.js';
import type { LogRecord } from '../../record.js';
import { isMedical } from '../documents/ground-on.js';
import { bySaying, replacedIn, rootOf } from '../effective.js';
import type { Ground } from '../ground.js';
import { timedBy } from '../timed.js';
import { begun, drawOf, sharing } from './run-of-draw.js';

/**
 * Fold draws, starts and readings into runs: all draws before all starts before all readings, for a test may be read on a
 * device whose clock is behind that of the one that started it. Draws and starts come in the order in which they were
 * said, so that the first start of a run stays the first, whatever time a later one claims; readings in order of
 * happening. What a reading means is worked out here from the kit's data each time and is never stored, so a corrected
 * start time or kit corrects the result too. Nothing that is added makes a reading less: under several starts each reading
 * is judged by the first of those by which it is gravest.
 */
export function foldRuns(standing: readonly LogRecord[], records: readonly LogRecord[], ground: Ground): TestRun[] {
  const timed = timedBy(records);
  const saidFirst = bySaying(records);
  const runs = new Map<RunId, TestRun>();
  const starts = new Map<RunId, readonly Start[]>();
  const inStages = [...standing, ...movedAway(standing, records, ground)].toSorted((a, b) => {
    const stage = stageOf(a);
    return stage - stageOf(b) || (stage < 2 ? saidFirst(a, b) : 0);
  });
  for (const record of inStages) {
    switch (record.kind) {
      case 'sample-drawn': {
        const { run, schedule, volume_ul, usable, round } = record.body;
        const before = runs.get(run) ?? begun(run, schedule);
        const { drawnAt } = before;
        runs.set(run, {
          ...before,
          round,
          drawnAt: usable && record.happenedAt > (drawnAt ?? '') ? record.happenedAt : drawnAt,
          volume_ul: before.volume_ul + volume_ul,
        });
        break;
      }
      case 'test-started': {
        const { run, schedule, round } = record.body;
        const before = runs.get(run) ?? ofAnotherDraw(runs, run) ?? begun(run, schedule);
        const start = startOf(record, timed(record));
        starts.set(run, [...(starts.get(run) ?? []), start]);
        if (before.startRecord === null) runs.set(run, { ...before, round, ...start });
        break;
      }
      case 'test-read': {
        const { run } = record.body;
        const before = runs.get(run);
        if (before !== undefined) {
          runs.set(run, withReading(before, starts.get(run) ?? [], record, timed(record), ground));
        }
        break;
      }
      case 'test-abandoned': {
        const before = runs.get(record.body.run) ?? ofAnotherDraw(runs, record.body.run);
        // Reactive is reactive, whether it was given up before or after somebody read it.
        if (before !== undefined && before.result !== 'reactive') {
          const { fault: _, ...rest } = before;
          runs.set(record.body.run, {
            ...rest,
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
  return [...runs.values()];
}

/**
 * Readings with a mark that others than the medical team corrected onto another kit: they stay with the kit that they were
 * of as well. Each has the id under which its correction stands.
 */
function movedAway(standing: readonly LogRecord[], records: readonly LogRecord[], ground: Ground): LogRecord[] {
  const next = replacedIn(records);
  if (next.size === 0) return [];
  return records.flatMap((read): LogRecord[] => {
    const taker = next.get(read.id);
    if (read.kind !== 'test-read' || taker === undefined || isMedical(ground, taker)) return [];
    const { id } = rootOf<LogRecord>(read, (id) => records.find((one) => one.id === id));
    const now = standing.find((one) => one.id === id);
    if (now?.kind !== 'test-read' || now.body.run === read.body.run) return [];
    const start = standing.find((one) => one.kind === 'test-started' && one.body.run === read.body.run);
    const kitType = start?.kind === 'test-started' ? start.body.kitType : null;
    return marksReactive(ground, kitType, read.body.seen) ? [{ ...read, id }] : [];
  });
}

/** What a start says of its run. */
type Start = Pick<
  TestRun,
  'kitType' | 'lot' | 'kitLot' | 'conjugateLot' | 'startedAt' | 'start' | 'startRecord' | 'untimed'
>;

function startOf({ id, happenedAt, body }: LogRecord<'test-started'>, start: Clocked): Start {
  const { kitType, lot, kitLot, conjugateLot, untimed } = body;
  const begins = { kitType, lot, kitLot, conjugateLot, startedAt: happenedAt, start, startRecord: id };
  return untimed === true ? { ...begins, untimed } : begins;
}

/** The run with what its reading means, or why it means nothing. */
function judged(run: TestRun, ground: Ground): TestRun {
  const fault = faultOf(run, ground);
  return fault === null ? { ...run, result: resultOfRun(run, ground) } : { ...run, result: 'not-valid', fault };
}

/**
 * The run with one reading more. Two people may read one kit, and of readings that disagree the more serious one stands,
 * whoever came later; of two that say the same, the later one. A test that was given up stays so, unless it was reactive.
 */
function withReading(
  before: TestRun,
  starts: readonly Start[],
  record: LogRecord<'test-read'>,
  reading: Clocked,
  ground: Ground,
): TestRun {
  const { seen, untimed } = record.body;
  const { happenedAt: at, id, by } = record;
  const { untimed: _untimed, fault: _fault, readings = [], ...rest } = before;
  const read = { seen, readAt: at, reading, readRecord: id, ...(untimed === true ? { untimed } : {}) };
  const [first = judged({ ...rest, result: 'running', ...read }, ground), ...later] = starts.map((start) =>
    judged({ ...rest, result: 'running', ...start, ...read }, ground),
  );
  const gravest = later.reduce((one, other) => (graveOf(other, ground) > graveOf(one, ground) ? other : one), first);
  const { fault: _of, ...given } = gravest;
  const after: TestRun =
    before.result === 'abandoned' && gravest.result !== 'reactive' ? { ...given, result: 'abandoned' } : gravest;
  const { result, fault } = after;
  const mark = result !== 'reactive' && graveOf(after, ground) > 0;
  const one: RunReading = {
    record: id,
    at,
    by,
    seen,
    result,
    ...(fault === undefined ? {} : { fault }),
    ...(mark ? { mark } : {}),
    ...(record.body.second === undefined ? {} : { unseconded: true as const }),
  };
  const standing = readings.find((other) => other.record === before.readRecord);
  const stays =
    standing !== undefined &&
    weightOf(standing, kitTypeNamed(ground, before.kitType)) > weightOf(one, kitTypeNamed(ground, after.kitType));
  return { ...(stays ? before : after), readings: withSecondLooks<RunReading>([...readings, one]) };
}

/** Reactive before a mark on a test that does not count, before anything else. */
const graveOf = (run: TestRun, ground: Ground): number =>
  run.result === 'reactive' ? 2 : run.result !== 'negative' && marksReactive(ground, run.kitType, run.seen) ? 1 : 0;

/** Whether marks would mean reactive on a test that counts, by its kit, or by any kit when it is not known. */
export function marksReactive(ground: Ground, kitType: string | null, seen: TestRun['seen']): boolean {
  const kit = kitTypeNamed(ground, kitType);
  return kit === null ? everyKit(ground).some((one) => hasTestMark(one, seen)) : hasTestMark(kit, seen);
}

/** Kits of every formulary filed; where nobody knows the kit, the marks are read by any of them. */
const everyKit = ({ formulary, formularies }: Ground) =>
  [...(formulary?.kits ?? []), ...formularies.flatMap(({ document }) => document.kits)].filter(
    (kit, place, all) => all.indexOf(kit) === place,
  );

type Read = Pick<RunReading, 'result' | 'seen'>;

/** Whether each zone of the kit was looked at. */
const isWhole = ({ seen }: Pick<Read, 'seen'>, kit: KitType | null): boolean =>
  kit?.zones.every((zone) => seen[zone.id] !== undefined) ?? Object.keys(seen).length > 0;

/**
 * How serious a reading is; one that says nothing by its time, or did not look at every zone, is the least, and of two
 * such the one with a mark comes first.
 */
function weightOf(read: Read & Pick<RunReading, 'mark'>, kit: KitType | null): number {
  if (read.result === 'reactive') return Object.values(read.seen).includes('faint') ? 7 : 8;
  const mark = read.mark === true ? 1 : 0;
  if (read.result === 'invalid') return (isWhole(read, kit) ? 5 : 2) + mark;
  return read.result === 'negative' ? 4 : mark;
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
