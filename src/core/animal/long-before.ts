import type { CalendarDate } from '../calendar.js';
import type { BirthInterval } from './animal.js';

/** No cat of today was alive before it. Our choice, no source. */
const earliestDay = '1990-01-01';

/** Whether something cannot have happened to an animal on a day: before it was born, or before 1990. */
export const isLongBefore = (on: CalendarDate, { basis, earliest }: BirthInterval): boolean =>
  on < earliestDay || (basis !== 'unknown' && on < earliest);
