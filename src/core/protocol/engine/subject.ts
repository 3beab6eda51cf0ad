import { type CalendarDate, dayNumber } from '../../calendar.js';
import { derived } from '../../derived.js';
import type { ProtocolDocument, Schedule } from '../document/document.js';
import type { ProtocolInput, Subject } from '../input.js';
import type { Done, Progress } from '../progress.js';
import { gatherDone } from './done.js';
import { placesIn } from './routes.js';
import { notBegun, progressIn } from './walk.js';

const nothing: readonly Done[] = [];

/** The same animal for both questions, with the schedules that are asked about walked in the order of the protocol. */
export const walkedThrough = derived(
  (input: ProtocolInput, protocol: ProtocolDocument, asked: readonly Schedule[], today: CalendarDate): Subject => {
    const subject = subjectOf(input, protocol, today);
    for (const schedule of asked) subject.progressOf(schedule);
    return subject;
  },
);

/** Every schedule that a protocol uses, in its order. */
export const inUse = derived((protocol: ProtocolDocument): readonly Schedule[] =>
  protocol.schedules.filter(({ active }) => active),
);

/**
 * Get an animal ready for evaluation and forecast on a day. Each schedule is walked once, when it is first asked for;
 * schedules that wait for each other in a ring see each other as not begun.
 */
export function subjectOf(input: ProtocolInput, protocol: ProtocolDocument, today: CalendarDate): Subject {
  const { born, arrivedOn } = input.animal;
  const { byId } = placesIn(protocol);
  const gathered = gatherDone(input, protocol);
  const walked: (Progress | undefined)[] = [];
  const earliest = dayNumber(born.earliest);
  const latest = dayNumber(born.latest);
  const subject: Subject = {
    input,
    protocol,
    today: dayNumber(today),
    // A birth interval written the wrong way round is still an interval.
    born: { oldest: Math.min(earliest, latest), youngest: Math.max(earliest, latest) },
    arrived: dayNumber(arrivedOn),
    implants: gathered.implants,
    scheduleOf: (id) => byId.get(id)?.schedule,
    progressOf: (schedule) => {
      const place = byId.get(schedule.id)?.place;
      if (place === undefined) return notBegun(schedule);
      const known = walked[place];
      if (known !== undefined) return known;
      walked[place] = notBegun(schedule);
      const progress = progressIn(subject, schedule, gathered.byPlace[place] ?? nothing);
      walked[place] = progress;
      return progress;
    },
  };
  return subject;
}
