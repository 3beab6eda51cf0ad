import { asDay, dayFromNumber, dayNumber, type InstantText } from '../core/calendar.js';

/** Milliseconds since 1970 in UTC, as a whole number: the demo counts minutes without asking any clock. */
export type Ms = number;

const dayMs = 86_400_000;
const epoch = 719_528; // day number of 1970-01-01, counted from 0000-01-01

/** Milliseconds of an instant, `2026-03-08T14:07:00.000Z`; digits after the third of a second are dropped. Throws on other text. */
export function msOf(instant: string): Ms {
  const day = asDay(instant.slice(0, 10));
  const time = /^T(\d{2}):(\d{2}):(\d{2})(?:\.(\d{1,9}))?Z$/.exec(instant.slice(10));
  if (day === null || time === null) throw new Error(`not an instant in UTC: ${instant}`);
  const [hours, minutes, seconds] = [Number(time[1]), Number(time[2]), Number(time[3])];
  const thousandths = Number((time[4] ?? '').padEnd(3, '0').slice(0, 3));
  return (dayNumber(day) - epoch) * dayMs + hours * 3_600_000 + minutes * 60_000 + seconds * 1000 + thousandths;
}

/** The instant of a whole number of milliseconds since 1970. */
export function instantOf(ms: Ms): InstantText {
  const days = Math.floor(ms / dayMs);
  const rest = ms - days * dayMs;
  const part = (size: number, of: number, digits = 2): string =>
    String(Math.floor(rest / size) % of).padStart(digits, '0');
  const time = `${part(3_600_000, 24)}:${part(60_000, 60)}:${part(1000, 60)}.${part(1, 1000, 3)}`;
  return `${dayFromNumber(epoch + days)}T${time}Z`;
}

export const seconds = (n: number): Ms => n * 1000;
export const minutes = (n: number): Ms => n * 60_000;
