import { type CalendarDate, dayNumber } from '../calendar.js';
import type { ProtocolDocument, Schedule } from './document.js';
import { gatherDone } from './done.js';
import type { ProtocolInput, Subject } from './input.js';
import type { Done, Progress } from './progress.js';
import { placesIn } from './routes.js';
import { progressIn } from './walk.js';

const nothing: readonly Done[] = [];

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
      const place = byId.get(schedule.id)?.place ?? -1;
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

const notBegun = (schedule: Schedule): Progress => ({
  schedule,
  series: null,
  judged: [],
  place: 0,
  doses: [],
  lastResult: null,
  last: null,
  lastJudged: null,
});
