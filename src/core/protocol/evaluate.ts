import { addSpanTo, type CalendarDate, dayFromNumber } from '../calendar.js';
import type { RecordId, ScheduleId } from '../ids.js';
import type { Said } from '../said.js';
import type { ProtocolDocument, Schedule } from './document.js';
import { judgementSaid } from './explain.js';
import type { ProtocolInput } from './input.js';
import { evaluateOrders } from './order-forecast.js';
import type { Judgement, Reason } from './progress.js';
import { subjectOf } from './subject.js';

/** What one thing in the past of an animal was worth to one schedule. */
export interface Evaluated {
  readonly record: RecordId;
  readonly on: CalendarDate;
  readonly schedule: ScheduleId;
  /**
   * `valid`: met the dose it was meant for. `not-valid`: did not, the dose stays open. `extra`: not needed.
   * `substandard`: given from a bad lot or not taken, to be repeated. `pending`: not known yet.
   */
  readonly status: 'valid' | 'not-valid' | 'extra' | 'substandard' | 'pending';
  readonly reason: Reason;
  /** Number of the dose it was meant for, from 1; null when no dose was open. */
  readonly dose: number | null;
  /** First day on which it would have counted, when it came too soon or too young. */
  readonly validFrom: CalendarDate | null;
  /** First day on which a valid first dose counts by law, where the protocol says so. */
  readonly protectsFrom: CalendarDate | null;
  readonly why: Said;
}

/**
 * Was each past dose, test, chip and weighing valid for the target it was meant for? In the order of the protocol's
 * schedules, then of happening; a combination product appears once for each schedule it concerns.
 * Total: any history gives an answer, whatever its order and however impossible its dates.
 * Source of the model: CDC, CDSi logic specification 4.5, chapters 4 and 6.
 */
export function evaluate(input: ProtocolInput, protocol: ProtocolDocument, today: CalendarDate): Evaluated[] {
  const subject = subjectOf(input, protocol, today);
  const used = protocol.schedules.filter(({ active }) => active);
  const judged = used.flatMap((schedule) =>
    subject.progressOf(schedule).judged.map((judgement) => ({
      record: judgement.done.record,
      on: dayFromNumber(judgement.done.on),
      schedule: schedule.id,
      status: judgement.status,
      reason: judgement.reason,
      dose: judgement.dose,
      validFrom: judgement.validFrom === null ? null : dayFromNumber(judgement.validFrom),
      protectsFrom: protectsFrom(schedule, judgement),
      why: judgementSaid(schedule, judgement),
    })),
  );
  const ordered = evaluateOrders(input, today);
  return ordered.length === 0 ? judged : [...judged, ...ordered];
}

function protectsFrom({ protectsAfter }: Schedule, { status, dose, done }: Judgement): CalendarDate | null {
  if (protectsAfter === null || status !== 'valid') return null;
  // Later doses keep up what the first began: they count at once.
  return dayFromNumber(dose === 1 ? addSpanTo(done.on, protectsAfter.span) : done.on);
}
