import { addSpanTo, type CalendarDate, dayFromNumber } from '../../calendar.js';
import type { ProtocolDocument, Schedule } from '../document/document.js';
import type { Evaluated } from '../evaluated.js';
import type { ProtocolInput, Subject } from '../input.js';
import type { Judgement } from '../progress.js';
import { evaluateOrders } from '../vet-orders/order-forecast.js';
import { judgementSaid } from './explain.js';
import { inUse, walkedThrough } from './subject.js';

/**
 * Was each past dose, test, chip and weighing valid for the target it was meant for? In the order of the protocol's
 * schedules, then of happening; a combination product appears once for each schedule it concerns.
 * Total: any history gives an answer, whatever its order and however impossible its dates.
 * Source of the model: CDC, CDSi logic specification 4.5, chapters 4 and 6.
 */
export const evaluate = (input: ProtocolInput, protocol: ProtocolDocument, today: CalendarDate): Evaluated[] => {
  const subject = walkedThrough(input, protocol, inUse(protocol), today);
  const judged = inUse(protocol).flatMap((schedule) => worthIn(subject, schedule, () => true));
  const ordered = evaluateOrders(input, today);
  return ordered.length === 0 ? judged : [...judged, ...ordered];
};

/** What came before it could count to some schedules, in their order. */
export const evaluatedEarly = (
  input: ProtocolInput,
  protocol: ProtocolDocument,
  asked: readonly Schedule[],
  today: CalendarDate,
): Evaluated[] => {
  const subject = walkedThrough(input, protocol, asked, today);
  return asked.flatMap((schedule) => worthIn(subject, schedule, isEarly));
};

const isEarly = ({ status, validFrom }: Judgement): boolean => status === 'not-valid' && validFrom !== null;

const worthIn = (subject: Subject, schedule: Schedule, which: (judgement: Judgement) => boolean): Evaluated[] =>
  subject
    .progressOf(schedule)
    .judged.filter(which)
    .map((judgement) => ({
      record: judgement.done.record,
      on: dayFromNumber(judgement.done.on),
      schedule: schedule.id,
      status: judgement.status,
      reason: judgement.reason,
      dose: judgement.dose,
      validFrom: judgement.validFrom === null ? null : dayFromNumber(judgement.validFrom),
      protectsFrom: protectsFrom(schedule, judgement),
      result: judgement.done.result,
      why: judgementSaid(schedule, judgement),
    }));

function protectsFrom({ protectsAfter }: Schedule, { status, dose, done }: Judgement): CalendarDate | null {
  if (protectsAfter === null || status !== 'valid') return null;
  // Later doses keep up what the first began: they count at once.
  return dayFromNumber(dose === 1 ? addSpanTo(done.on, protectsAfter.span) : done.on);
}
