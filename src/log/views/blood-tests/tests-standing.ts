import type { Animal, TestRun } from '../../../core/animal/animal.js';
import { type CalendarDate, dayOfInstant } from '../../../core/calendar.js';
import type { ScheduleId } from '../../../core/ids.js';
import type { Confirm } from '../../../core/protocol/due.js';
import { confirmOf, confirmSaid, isUnsettled } from '../../../core/protocol/engine/to-confirm.js';
import { type Said, said } from '../../../core/said.js';
import { protocolFor, worthOf } from '../due/due.js';
import type { Ground } from '../ground.js';

/** How the tests of one schedule stand when they are not settled; also for an animal that has left. */
export interface TestStanding {
  readonly schedule: ScheduleId;
  readonly name: string;
  readonly is: 'reactive' | 'repeat' | 'unread';
  readonly confirm: Confirm | null;
  readonly why: Said;
}

/** Where the reactive tests of a schedule stand; null when there is none that still matters. */
export function confirmFor(animal: Animal, ground: Ground, schedule: ScheduleId, today: CalendarDate): Confirm | null {
  const runs = animal.runs.filter((run) => run.schedule === schedule && run.readRecord !== null);
  // Most animals have none, and what the rest was worth need not be worked out.
  if (!runs.some((run) => run.result === 'reactive')) return null;
  const worth = worthOf(animal, ground, today).filter((one) => one.schedule === schedule);
  const tests = runs
    .map((run) => ({
      on: dayOfInstant(run.readAt ?? '', ground.zone),
      at: run.readAt ?? '',
      valid: worth.some((one) => one.record === run.readRecord && one.status === 'valid'),
      result: run.result === 'reactive' || run.result === 'negative' ? run.result : null,
    }))
    .sort((a, b) => (a.at < b.at ? -1 : 1));
  return confirmOf(tests, followUpsOf(animal, schedule), today);
}

const followUpsOf = (animal: Animal, schedule: ScheduleId) =>
  animal.followUps.filter((one) => one.schedule === schedule);

/** Every test of an animal that is not settled: reactive, to be repeated, or begun and never read. */
export function testsStanding(animal: Animal, ground: Ground, today: CalendarDate): TestStanding[] {
  const schedules = [...new Set(animal.runs.map((run) => run.schedule))];
  return schedules.flatMap((schedule) => {
    const of = protocolFor(ground, animal.section)?.schedules.find((one) => one.id === schedule);
    const name = of?.name ?? schedule;
    const standing: TestStanding[] = [];
    const confirm = confirmFor(animal, ground, schedule, today);
    if (isUnsettled(confirm) && confirm !== null) {
      const why =
        of === undefined
          ? said('due.reactive', { schedule: name, on: { date: confirm.on } })
          : confirmSaid(of, confirm);
      standing.push({ schedule, name, is: 'reactive', confirm, why });
    }
    const last = animal.runs.filter((run) => run.schedule === schedule && hasBlood(run)).at(-1);
    if (last?.result === 'running') {
      standing.push({ schedule, name, is: 'unread', confirm: null, why: said('due.test.unread', { schedule: name }) });
    } else if (last !== undefined && saysNothing(last.result)) {
      const on = { date: dayOfInstant(last.readAt ?? '', ground.zone) };
      const fault = last.fault === undefined ? reasons[last.result] : (`test-${last.fault}` as const);
      const why = said('due.test.repeat', { schedule: name, on, reason: said(`due.reason.${fault}`) });
      standing.push({ schedule, name, is: 'repeat', confirm: null, why });
    }
    return standing;
  });
}

const hasBlood = (run: TestRun): boolean => run.drawnAt !== null || run.startedAt !== null;
const reasons = {
  invalid: 'test-invalid',
  'not-valid': 'test-outside-window',
  abandoned: 'test-abandoned',
} as const;
const saysNothing = (result: TestRun['result']): result is keyof typeof reasons => Object.hasOwn(reasons, result);
