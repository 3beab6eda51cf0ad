import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { CalendarDate, type DayNumber, dayNumber, type InstantText } from './calendar.js';

/** A time on the wall clock of the shelter, `HH:MM`; it keeps its hour when clocks are changed. */
export const WallTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time as HH:MM');
export type WallTime = z.infer<typeof WallTime>;

/** Minutes since midnight; the text must be a time, which its schema promises. */
export const minutesOf = (time: WallTime): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

/** The time so many minutes after midnight, from 0 to 1439. */
export const timeOf = (minutes: number): WallTime =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

/** What the clock on a wall of the zone shows at an instant (UTC text). Throws on text that is not an instant or a zone. */
export const onTheWall = (instant: string, zone: string): Temporal.ZonedDateTime =>
  Temporal.Instant.from(instant).toZonedDateTimeISO(zone);

/** The same to be shown or typed: its day, and its time to the second, `HH:MM:SS`. */
export function wallOf(instant: string, zone: string): { readonly day: CalendarDate; readonly time: string } {
  const wall = onTheWall(instant, zone);
  return {
    day: CalendarDate.parse(wall.toPlainDate().toString()),
    time: wall.toPlainTime().toString({ smallestUnit: 'second' }),
  };
}

/** The time alone, `HH:MM`. */
export const wallTimeOf = (instant: string, zone: string): WallTime => wallOf(instant, zone).time.slice(0, 5);

/**
 * Day and minute of an instant (UTC text) on the wall clock of a zone. `minute` counts from day 0, so that it compares
 * with other times of the same clock. Throws on text that is not an instant or a zone.
 */
export function dayAndTimeOf(instant: string, zone: string): { day: DayNumber; minute: number; time: WallTime } {
  const wall = wallOf(instant, zone);
  const day = dayNumber(wall.day);
  const minute = minutesOf(wall.time.slice(0, 5));
  return { day, minute: day * 1440 + minute, time: timeOf(minute) };
}

/** The instant so many seconds later, UTC text with milliseconds. */
export const plusSeconds = (instant: string, seconds: number): InstantText =>
  Temporal.Instant.from(instant)
    .add({ milliseconds: Math.round(seconds * 1000) })
    .toString({ smallestUnit: 'millisecond' });
