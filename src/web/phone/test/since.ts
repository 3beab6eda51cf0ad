import { type CalendarDate, dayOfInstant } from '../../../core/calendar.js';
import { say } from '../../../words/say.js';

/** Since when something is out of the cold: a time of today, and the day too where it was another one. */
export const sinceWords = (at: string, today: CalendarDate, zone: string): string =>
  say(dayOfInstant(at, zone) === today ? 'round.kits.since-today' : 'round.kits.since-before', { at: { instant: at } });
