import type { TestRun } from '../../../core/animal/animal.js';
import { RunId, ScheduleId } from '../../../core/ids.js';

/*
 * Two tests due on one animal take one draw. The second test's run is then named after the one that the blood was drawn
 * for and its own schedule, `RUN+SCHEDULE`, so that every device gives it the same name without a record of its own.
 */

const longest = 80;

/** The name of a run that uses the blood drawn for another; null when it would be too long to be one. */
export function sharedRunOf(drawnFor: RunId, schedule: ScheduleId): RunId | null {
  const name = `${drawnFor}+${schedule}`;
  return name.length > longest ? null : RunId.parse(name);
}

/** The run that the blood was drawn for, and the schedule of this one; null for a run with a draw of its own. */
export function drawOf(run: RunId): { readonly run: RunId; readonly schedule: ScheduleId } | null {
  const at = run.lastIndexOf('+');
  const schedule = ScheduleId.safeParse(run.slice(at + 1));
  return at <= 0 || !schedule.success ? null : { run: RunId.parse(run.slice(0, at)), schedule: schedule.data };
}

/** A run of which nothing is known yet but its name and its test. */
export const begun = (run: RunId, schedule: ScheduleId): TestRun => ({
  run,
  schedule,
  round: null,
  kitType: null,
  lot: null,
  kitLot: null,
  conjugateLot: null,
  drawnAt: null,
  volume_ul: 0,
  startedAt: null,
  start: null,
  reading: null,
  readAt: null,
  seen: {},
  result: 'running',
  readRecord: null,
  startRecord: null,
});

/** A run that has nothing yet but the blood of another. */
export const sharing = ({ round, drawnAt }: TestRun, run: RunId, schedule: ScheduleId): TestRun => ({
  ...begun(run, schedule),
  round,
  drawnAt,
});
