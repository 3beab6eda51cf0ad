import { addDays, CalendarDate } from '../../src/core/calendar.js';
import { growthAlarms } from '../../src/core/growth/alarms.js';
import type { TimedWeight } from '../../src/core/growth/gain.js';
import { rulesFor } from '../../src/core/growth/watch.js';
import { starterProtocol } from './documents.js';

const watch = starterProtocol().weightWatch;
const today = CalendarDate.parse('2026-03-15');

/** What the starter protocol tells of a weight curve at an age in days, or at one that nobody knows. */
export const alarmsAt = (weighings: readonly (TimedWeight & { doubtful?: boolean })[], ageDays: number | null) => {
  const born = { latest: addDays(today, -(ageDays ?? 0)), basis: ageDays === null ? 'unknown' : 'known' } as const;
  return growthAlarms({ weighings, ageDays, rules: rulesFor(watch, born, today) });
};
export const codesAt = (...asked: Parameters<typeof alarmsAt>): string[] =>
  alarmsAt(...asked).map(({ code, severity }) => (severity === 'stop' ? `${code} stop` : code));
