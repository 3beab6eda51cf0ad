import type { Animal } from '../../../core/animal/animal.js';
import { illnessCodes, observationNamed } from '../../../core/animal/named.js';
import { type CalendarDate, dayFromNumber, dayNumber } from '../../../core/calendar.js';
import { known } from '../../../core/protocol/input.js';
import type { Said } from '../../../core/said.js';

/** Something seen of an animal that whoever stands before it has to know, and since when. */
export interface SignNow {
  readonly what: Said | string;
  readonly since: CalendarDate;
}

/** Signs of illness, and a bite, that stand on a day: noted by whomever, and by nobody as over. */
export function signsNow(animal: Animal, today: CalendarDate): readonly SignNow[] {
  const on = dayNumber(today);
  return [...illnessCodes, 'bite'].flatMap((code) => {
    const { state, since } = known({ input: { animal }, today: on }, code, on);
    return state === 'present' && since !== null ? [{ what: observationNamed(code), since: dayFromNumber(since) }] : [];
  });
}
