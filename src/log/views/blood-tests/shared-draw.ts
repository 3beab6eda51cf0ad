import type { TestRun } from '../../../core/animal/animal.js';
import type { RunId, ScheduleId } from '../../../core/ids.js';
import type { LogRecord } from '../../record.js';
import { scheduleNamed } from '../due/schedules.js';
import type { Shelter } from '../shelter.js';
import { drawOf, sharedRunOf, sharing } from './run-of-draw.js';

/** Whatever has the documents at hand: a world, or the ground of one animal. */
interface Documents {
  readonly shelter: Pick<Shelter, 'protocol' | 'protocols' | 'formulary'>;
}

/** What of a line of a round matters here. */
interface TestLine {
  readonly action: string;
  readonly schedule: ScheduleId;
  readonly state: 'open' | 'running' | 'part' | 'done' | 'not-done';
  readonly run: TestRun | null;
}

/** Blood that the kit of a test schedule takes at least, in whole microlitres; 0 when no kit is known for it. */
export function bloodFor(world: Documents, schedule: ScheduleId): number {
  const wanted: readonly string[] = scheduleNamed(world.shelter, schedule)?.satisfiedBy ?? [];
  const kits = world.shelter.formulary?.kits ?? [];
  return kits.find((kit) => kit.tests.some((test) => wanted.includes(test)))?.sample_ul ?? 0;
}

/** Blood for this test and for all others of the animal that are still to be drawn: one draw serves them all. */
export const bloodTogether = (world: Documents, lines: readonly TestLine[], schedule: ScheduleId): number =>
  lines
    .filter((line) => line.action === 'test' && (line.schedule === schedule || line.state === 'open'))
    .reduce((sum, line) => sum + bloodFor(world, line.schedule), 0);

/**
 * The lines of one animal with its open tests using the blood that was drawn for another test of this round, as far as
 * it reaches. A draw counts only as usable blood; what the runs on record have used is taken off first.
 */
export function withSharedDraw<Line extends TestLine>(
  world: Documents,
  runs: readonly TestRun[],
  own: readonly LogRecord[],
  lines: readonly Line[],
): Line[] {
  const left = new Map<RunId, number>();
  for (const record of own) {
    if (record.kind !== 'sample-drawn' || !record.body.usable) continue;
    left.set(record.body.run, (left.get(record.body.run) ?? 0) + record.body.volume_ul);
  }
  for (const run of runs) {
    const from = left.has(run.run) ? run.run : drawOf(run.run)?.run;
    if (from !== undefined && left.has(from)) left.set(from, (left.get(from) ?? 0) - bloodFor(world, run.schedule));
  }
  return lines.map((line) => {
    if (line.action !== 'test' || line.state !== 'open') return line;
    const wanted = bloodFor(world, line.schedule);
    const drawn = runs.findLast((run) => run.drawnAt !== null && wanted > 0 && (left.get(run.run) ?? 0) >= wanted);
    const name = drawn === undefined ? null : sharedRunOf(drawn.run, line.schedule);
    if (drawn === undefined || name === null) return line;
    left.set(drawn.run, (left.get(drawn.run) ?? 0) - wanted);
    return { ...line, state: 'running', run: sharing(drawn, name, line.schedule) };
  });
}
