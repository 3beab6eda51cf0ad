import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { derived } from './derived.js';

/**
 * A calendar day without time and without zone, as ISO text `YYYY-MM-DD`. Birth, due, expiry and intake days are
 * of this kind from the field to the export, so no zone can move them.
 */
export const CalendarDate = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'a day as YYYY-MM-DD')
  .refine((text) => isRealDay(text), 'not a day of the calendar')
  .brand<'CalendarDate'>();
export type CalendarDate = z.infer<typeof CalendarDate>;

/** An instant as ISO text in UTC, `2026-03-08T14:07:00.000Z`. */
export const InstantText = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,9})?Z$/, 'an instant in UTC')
  .refine((text) => isRealInstant(text), 'not an instant');
export type InstantText = z.infer<typeof InstantText>;

export const ZoneName = z.string().refine((zone) => isKnownZone(zone), 'not a time zone of the IANA list');
export type ZoneName = z.infer<typeof ZoneName>;

/** A span in the unit of its source; months and weeks are never turned into days. */
export const Span = z.object({
  years: z.number().int().optional(),
  months: z.number().int().optional(),
  weeks: z.number().int().optional(),
  days: z.number().int().optional(),
});
export type Span = z.infer<typeof Span>;

/**
 * Days are counted as whole numbers from 0000-01-01 (number 0) of the proleptic Gregorian calendar, so that an
 * interval of days is a subtraction and no clock change can shorten or lengthen it.
 */
export type DayNumber = number;

const lastDay = 3_652_424; // 9999-12-31, the last day that fits the text form
const daysBeforeMonth = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365] as const;
const twoDigits = Array.from({ length: 100 }, (_, n) => String(n).padStart(2, '0'));

const isLeapYear = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

const daysBeforeYear = (year: number): number =>
  365 * year + Math.floor((year + 3) / 4) - Math.floor((year + 99) / 100) + Math.floor((year + 399) / 400);

function daysBefore(year: number, month: number): number {
  const leapDay = month > 2 && isLeapYear(year) ? 1 : 0;
  return daysBeforeYear(year) + (daysBeforeMonth[month - 1] ?? 0) + leapDay;
}

/** Days of a month, 1 = January. */
const lengthOfMonth = (year: number, month: number): number =>
  month === 2 ? (isLeapYear(year) ? 29 : 28) : (daysBeforeMonth[month] ?? 0) - (daysBeforeMonth[month - 1] ?? 0);

const digits = (text: string, from: number, to: number): number => {
  let value = 0;
  for (let at = from; at < to; at += 1) value = value * 10 + text.charCodeAt(at) - 48;
  return value;
};

/** True when the text is `YYYY-MM-DD` and names a day that exists (29 February only in leap years). */
export function isRealDay(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && startsWithDay(text);
}

/** The same of the first ten characters of a text that has its figures where a day has them. */
function startsWithDay(text: string): boolean {
  const year = digits(text, 0, 4);
  const month = digits(text, 5, 7);
  const day = digits(text, 8, 10);
  return month >= 1 && month <= 12 && day >= 1 && day <= lengthOfMonth(year, month);
}

/** True when the text is an instant in UTC that exists; leap seconds are not accepted. */
export function isRealInstant(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,9})?Z$/.test(text)) return false;
  return startsWithDay(text) && digits(text, 11, 13) < 24 && digits(text, 14, 16) < 60 && digits(text, 17, 19) < 60;
}

const zonesSeen = new Set<string>();

/** True when the name is a zone of the IANA list that this machine knows; offsets such as `+02:00` are no zones. */
export function isKnownZone(zone: string): boolean {
  if (zonesSeen.has(zone)) return true;
  if (!/^[A-Za-z]/.test(zone)) return false;
  try {
    new Temporal.ZonedDateTime(0n, zone);
  } catch {
    return false;
  }
  zonesSeen.add(zone);
  return true;
}

/** Number of a day; the day must be real, which its type promises. */
export function dayNumber(date: CalendarDate): DayNumber {
  // Written out because every event of every animal goes through here.
  const year =
    date.charCodeAt(0) * 1000 + date.charCodeAt(1) * 100 + date.charCodeAt(2) * 10 + date.charCodeAt(3) - 53_328;
  const month = date.charCodeAt(5) * 10 + date.charCodeAt(6) - 528;
  return daysBefore(year, month) + date.charCodeAt(8) * 10 + date.charCodeAt(9) - 529;
}

/** The day with this number; numbers outside 0000-01-01 to 9999-12-31 give the nearer of those two days. */
export function dayFromNumber(number: DayNumber): CalendarDate {
  const known = texts[number - firstKept];
  if (known !== undefined) return known;
  const text = textOf(number);
  if (number >= firstKept && number < firstKept + daysKept) texts[number - firstKept] = text;
  return text;
}

/** Texts of the days of 1990 to 2149, kept once made: the same few days are written over and over. */
const firstKept = 726_833;
const daysKept = 58_440;
const texts: CalendarDate[] = [];

function textOf(number: DayNumber): CalendarDate {
  const { year, month, day } = partsOf(number);
  const century = twoDigits[Math.floor(year / 100)] ?? '00';
  const text = `${century}${twoDigits[year % 100]}-${twoDigits[month]}-${twoDigits[day]}`;
  // The one place where text becomes a day without the schema: the parts are real by construction.
  return text as CalendarDate;
}

function partsOf(number: DayNumber): { year: number; month: number; day: number } {
  const within = Math.min(Math.max(Math.trunc(number), 0), lastDay);
  let year = Math.floor(within / 365.2425);
  if (daysBeforeYear(year) > within) year -= 1;
  else if (daysBeforeYear(year + 1) <= within) year += 1;
  let month = Math.floor((within - daysBeforeYear(year)) / 31) + 1;
  if (month < 12 && daysBefore(year, month + 1) <= within) month += 1;
  return { year, month, day: within - daysBefore(year, month) + 1 };
}

/**
 * Number of the day reached by adding a span: years and months first, then weeks and days. A day that does not exist
 * (31 January + 1 month) becomes the first of the next month before weeks and days are added.
 * Source: CDC, Clinical Decision Support for Immunization, Logic Specification, date rules CALCDT-1 to CALCDT-6.
 * Twelve months are the same as one year.
 */
export function addSpanTo(number: DayNumber, span: Span): DayNumber {
  const months = (span.years ?? 0) * 12 + (span.months ?? 0);
  const days = (span.weeks ?? 0) * 7 + (span.days ?? 0);
  return (months === 0 ? number : addMonthsTo(number, months)) + days;
}

function addMonthsTo(number: DayNumber, months: number): DayNumber {
  const { year, month, day } = partsOf(number);
  const monthsSinceZero = year * 12 + month - 1 + months;
  const toYear = Math.floor(monthsSinceZero / 12);
  const toMonth = monthsSinceZero - toYear * 12 + 1;
  // One past the last day of the month is the first of the next one, which is where an unreal day goes.
  return daysBefore(toYear, toMonth) + Math.min(day, lengthOfMonth(toYear, toMonth) + 1) - 1;
}

/** The day reached by adding a span; see addSpanTo for the rule. Stays within years 0 to 9999. */
export const addSpan = (date: CalendarDate, span: Span): CalendarDate =>
  dayFromNumber(addSpanTo(dayNumber(date), span));

/** The day so many whole days later, or earlier when negative. */
export const addDays = (date: CalendarDate, days: number): CalendarDate => dayFromNumber(dayNumber(date) + days);

/** Whole days from one day to another; negative when `to` is earlier. */
export const daysBetween = (from: CalendarDate, to: CalendarDate): number => dayNumber(to) - dayNumber(from);

/** Order of two days for sorting: -1, 0 or 1. Four-digit ISO text sorts as time does. */
export const compareDays = (a: CalendarDate, b: CalendarDate): -1 | 0 | 1 => (a < b ? -1 : a > b ? 1 : 0);

/** The latest of the days. */
export const maximum = (first: CalendarDate, ...others: readonly CalendarDate[]): CalendarDate =>
  others.reduce((most, day) => (compareDays(day, most) > 0 ? day : most), first);

/** Day number of 1970-01-01, from which instants are counted. */
const epochDay = 719_528;

/**
 * Milliseconds from 1970 to an instant, whole; throws on text that is not an instant. The way in which devices write
 * instants is read without the library: a curve of weights asks for hundreds of them.
 */
export function epochMs(instant: string): number {
  if (instant.length !== 24 || !isRealInstant(instant)) return Temporal.Instant.from(instant).epochMilliseconds;
  const minutes = digits(instant, 11, 13) * 60 + digits(instant, 14, 16);
  const days = dayNumber(instant.slice(0, 10) as CalendarDate) - epochDay;
  return ((days * 1440 + minutes) * 60 + digits(instant, 17, 19)) * 1000 + digits(instant, 20, 23);
}

/**
 * The calendar day on which an instant falls in a zone; throws on text that is not an instant or a zone. The way in which
 * devices write instants is read without the library on days on which the zone's clocks are not changed.
 */
export function dayOfInstant(instant: string, zone: string): CalendarDate {
  if (instant.length === 24 && isRealInstant(instant)) {
    const utcDay = dayNumber(instant.slice(0, 10) as CalendarDate);
    const offset_min = offsetOn(zone, utcDay);
    if (offset_min !== null) {
      const minute = digits(instant, 11, 13) * 60 + digits(instant, 14, 16) + offset_min;
      return dayFromNumber(utcDay + Math.floor(minute / 1440));
    }
  }
  const { year, month, day } = Temporal.Instant.from(instant).toZonedDateTimeISO(zone);
  return dayFromNumber(daysBefore(year, month) + day - 1);
}

/** How far a zone is ahead of UTC through a whole UTC day, in minutes; null when that changes or is no whole minute. */
const offsetOn = derived((zone: string, utcDay: DayNumber): number | null => {
  const [begin, end] = [utcDay, utcDay + 1].map((day) => {
    const midnight = Temporal.Instant.fromEpochMilliseconds((day - epochDay) * 86_400_000);
    return midnight.toZonedDateTimeISO(zone).offsetNanoseconds / 60e9;
  });
  return begin === end && Number.isInteger(begin) ? (begin ?? null) : null;
}, 400);

/**
 * The instant of a wall-clock time, `HH:MM`, on a day in a zone, as UTC text with milliseconds. A time skipped when
 * clocks go forward is moved on by the length of the gap; of a time that happens twice the first is meant.
 * Throws on a time or zone that does not exist.
 */
export function instantAt(date: CalendarDate, time: string, zone: string): InstantText {
  const wall = Temporal.PlainDateTime.from(`${date}T${time}`);
  return wall
    .toZonedDateTime(zone, { disambiguation: 'compatible' })
    .toInstant()
    .toString({ smallestUnit: 'millisecond' });
}

/** Age in whole days on a day, 0 on the day of birth; negative before it. */
export const ageDays = (born: CalendarDate, on: CalendarDate): number => daysBetween(born, on);

/** A day out of plain text, or null when the text is not a real day. */
export function asDay(text: string): CalendarDate | null {
  const read = CalendarDate.safeParse(text);
  return read.success ? read.data : null;
}
