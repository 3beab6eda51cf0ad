import { Temporal } from 'temporal-polyfill';
import type { BirthInterval } from '../animal/animal.js';
import type { CalendarDate } from '../calendar.js';
import { type Said, said } from '../said.js';
import { type AgeText, bornFromAge, readAgeText } from './age-text.js';
import { type DayOrder, readDay } from './day.js';

export interface BirthCells {
  readonly born: string;
  readonly age: string;
  /** The day to which the age refers, if the file tells. */
  readonly ageOn: CalendarDate | null;
}

export interface BirthReading {
  readonly born: BirthInterval;
  readonly doubts: readonly Said[];
  /** What was concluded and needs no answer. */
  readonly notes: readonly Said[];
}

/** No cat is taken to be older than this (common practice, no source). */
const oldest_years = 25;

/**
 * When an animal was born, from a birth date, an age text or neither.
 *
 * A birth date on the same day and month as the arrival was counted back from an age guessed in years, and one on the
 * same day of another month from an age in months: it becomes the interval that such an age leaves open. (In two city
 * files 29 % and 33 % of the other birth dates fall on the arrival's day of the month, against 3 % by chance.)
 * A date that cannot be is left out with a doubt, and the age text or `unknown` takes its place.
 */
export function readBirth(
  cells: BirthCells,
  arrived: CalendarDate | null,
  order: DayOrder | null,
  today: CalendarDate,
): BirthReading {
  const doubts: Said[] = [];
  const notes: Said[] = [];
  const age = readAge(cells, doubts);
  const day = usableDay(cells.born, arrived, order, today, doubts);
  if (day !== null) {
    const counted = arrived === null ? null : countedBack(day, arrived);
    const interval = counted === null || arrived === null ? null : bornFromAge(counted, arrived);
    if (interval !== null) notes.push(said('import.birth-counted-back', { day: { date: day } }));
    const born = interval ?? { earliest: day, latest: day };
    if (age !== null && (age.latest < born.earliest || age.earliest > born.latest)) {
      doubts.push(said('import.birth-and-age-differ', { day: { date: day }, age: cells.age }));
    }
    return { born: { ...born, basis: interval === null ? 'known' : 'estimated' }, doubts, notes };
  }
  if (age !== null) {
    notes.push(said('import.birth-from-age', { age: cells.age }));
    return { born: { ...age, basis: 'estimated' }, doubts, notes };
  }
  const latest = arrived ?? today;
  const earliest = Temporal.PlainDate.from(latest).subtract({ years: oldest_years }).toString() as CalendarDate;
  notes.push(said('import.birth-unknown'));
  return { born: { earliest, latest, basis: 'unknown' }, doubts, notes };
}

function usableDay(
  cell: string,
  arrived: CalendarDate | null,
  order: DayOrder | null,
  today: CalendarDate,
  doubts: Said[],
): CalendarDate | null {
  const reading = readDay(cell, order, today);
  switch (reading.state) {
    case 'blank':
      return null;
    case 'two-readings':
      doubts.push(said('import.date-two-readings', { cell, ...bothDays(reading.days) }));
      return null;
    case 'no-such-day':
      doubts.push(said('import.no-such-day', { cell }));
      return null;
    case 'not-a-day':
      doubts.push(said('import.not-a-day', { cell }));
      return null;
    case 'read':
      break;
  }
  const { day } = reading;
  const first = Temporal.PlainDate.from(arrived ?? today)
    .subtract({ years: oldest_years + 5 })
    .toString();
  if (day > today) doubts.push(said('import.born-in-future', { day: { date: day } }));
  else if (arrived !== null && day > arrived) {
    doubts.push(said('import.born-after-arrival', { day: { date: day }, arrived: { date: arrived } }));
  } else if (day < first) doubts.push(said('import.born-long-ago', { day: { date: day } }));
  else return day;
  return null;
}

export const bothDays = ([one, other]: readonly [CalendarDate, CalendarDate]) => ({
  one: { date: one },
  other: { date: other },
});

/** The age that a birth date seems to be counted back from, or null for a date that was probably known. */
function countedBack(born: CalendarDate, arrived: CalendarDate): AgeText | null {
  if (born.slice(8) !== arrived.slice(8)) return null;
  const { years, months } = Temporal.PlainDate.from(born).until(arrived, { largestUnit: 'years' });
  const none = { years: 0, months: 0, weeks: 0, days: 0 };
  if (months === 0) return { from: { ...none, years }, to: { ...none, years }, unit: 'years' };
  const age = { ...none, months: years * 12 + months };
  return { from: age, to: age, unit: 'months' };
}

function readAge(cells: BirthCells, doubts: Said[]): ReturnType<typeof bornFromAge> | null {
  if (/^[\s?-]*$|^(no age|n\/?a|none|unknown|unk)$/i.test(cells.age)) return null;
  const age = readAgeText(cells.age);
  if (age === null) doubts.push(said('import.age-not-read', { age: cells.age }));
  else if (cells.ageOn === null) doubts.push(said('import.age-without-date', { age: cells.age }));
  else return bornFromAge(age, cells.ageOn);
  return null;
}
