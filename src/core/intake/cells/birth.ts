import { Temporal } from 'temporal-polyfill';
import type { BirthInterval } from '../../animal/animal.js';
import type { CalendarDate } from '../../calendar.js';
import { type Said, said } from '../../said.js';
import { type AgeText, type BornBetween, bornFromAge, readAgeText } from './age-text.js';
import { bothDays } from './cell-day.js';
import { type DayOrder, readDay } from './day.js';

export interface BirthCells {
  readonly born: string;
  readonly age: string;
  /**
   * The day on which the age was true; null where this row does not tell it. `asked`: no column tells it and nobody has
   * said yet. `not-used`: a person said that the ages are not to be used.
   */
  readonly ageOn: CalendarDate | 'asked' | 'not-used' | null;
  /** A cell that says that it was born in care, on the day that counts as its arrival; empty where none does. */
  readonly bornHere: string;
}

/**
 * Days after its birth within which an animal born in care is entered; ours. (In two city files 93 of the 94 such animals
 * that were not born after their arrival arrived at most 5 days after the birth date, one 31 days after it.)
 */
const entered_within_days = 7;

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
 *
 * An age counts only with a day on which it was true, and that day is never assumed. One that says that the animal was
 * born after it arrived, over 30 years ago, or long before although it was born in care, is left out with a doubt.
 */
export function readBirth(
  cells: BirthCells,
  arrived: CalendarDate | null,
  order: DayOrder | null,
  today: CalendarDate,
): BirthReading {
  const doubts: Said[] = [];
  const notes: Said[] = [];
  const day = usableDay(cells.born, arrived, order, today, doubts);
  // With a birth date the age is only compared, so nobody has to say on which day it was true.
  const age = readAge(cells, arrived, day !== null, doubts, notes);
  if (day !== null) {
    // Born in care and entered on the same day is no date that somebody counted back.
    const isBirthday = cells.bornHere !== '' && day === arrived;
    const counted = arrived === null || isBirthday ? null : countedBack(day, arrived);
    const interval = counted === null || arrived === null ? null : bornFromAge(counted, arrived);
    if (interval !== null) notes.push(said('import.birth-counted-back', { day: { date: day } }));
    const born = interval ?? { earliest: day, latest: day };
    if (age !== null && (age.latest < born.earliest || age.earliest > born.latest)) {
      doubts.push(said('import.birth-and-age-differ', { day: { date: day }, age: cells.age }));
    }
    notBornHere(born, cells, arrived, doubts);
    return { born: { ...born, basis: interval === null ? 'known' : 'estimated' }, doubts, notes };
  }
  if (age !== null && !notBornHere(age, cells, arrived, doubts)) {
    notes.push(said('import.birth-from-age', { age: cells.age }));
    return { born: { ...age, basis: 'estimated' }, doubts, notes };
  }
  const latest = arrived ?? today;
  const earliest = Temporal.PlainDate.from(latest).subtract({ years: oldest_years }).toString() as CalendarDate;
  notes.push(said('import.birth-unknown'));
  return { born: { earliest, latest, basis: 'unknown' }, doubts, notes };
}

/** Born in care, but not on the day of arrival by what else the row says: a doubt. */
function notBornHere(
  born: BornBetween,
  { bornHere }: BirthCells,
  arrived: CalendarDate | null,
  doubts: Said[],
): boolean {
  if (bornHere === '' || arrived === null) return false;
  const entered = Temporal.PlainDate.from(arrived).subtract({ days: entered_within_days }).toString();
  if (born.earliest <= arrived && entered <= born.latest) return false;
  const days = { arrived: { date: arrived }, from: { date: born.earliest }, to: { date: born.latest } };
  doubts.push(said('import.born-here-differs', { cell: bornHere, ...days }));
  return true;
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
  if (day > today) doubts.push(said('import.born-in-future', { day: { date: day } }));
  else if (arrived !== null && day > arrived) {
    doubts.push(said('import.born-after-arrival', { day: { date: day }, arrived: { date: arrived } }));
  } else if (day < firstBirth(arrived ?? today)) doubts.push(said('import.born-long-ago', { day: { date: day } }));
  else return day;
  return null;
}

/** No birth before this day is taken. */
const firstBirth = (latest: CalendarDate): string =>
  Temporal.PlainDate.from(latest)
    .subtract({ years: oldest_years + 5 })
    .toString();

/** The age that a birth date seems to be counted back from, or null for a date that was probably known. */
function countedBack(born: CalendarDate, arrived: CalendarDate): AgeText | null {
  if (born.slice(8) !== arrived.slice(8)) return null;
  const { years, months } = Temporal.PlainDate.from(born).until(arrived, { largestUnit: 'years' });
  const none = { years: 0, months: 0, weeks: 0, days: 0 };
  if (months === 0) return { from: { ...none, years }, to: { ...none, years }, unit: 'years' };
  const age = { ...none, months: years * 12 + months };
  return { from: age, to: age, unit: 'months' };
}

function readAge(
  { age: cell, ageOn }: BirthCells,
  arrived: CalendarDate | null,
  onlyCompared: boolean,
  doubts: Said[],
  notes: Said[],
): BornBetween | null {
  if (/^[\s?-]*$|^(no age|n\/?a|none|unknown|unk)$/i.test(cell)) return null;
  if (ageOn === 'not-used') {
    notes.push(said('import.age-not-used', { age: cell }));
    return null;
  }
  const age = readAgeText(cell);
  if (age === null) {
    doubts.push(said('import.age-not-read', { age: cell }));
    return null;
  }
  if (ageOn === null || ageOn === 'asked') {
    if (!onlyCompared) doubts.push(said(ageOn === null ? 'import.age-without-date' : askedAge, { age: cell }));
    return null;
  }
  const born = bornFromAge(age, ageOn);
  if (born.latest < firstBirth(arrived ?? ageOn)) {
    doubts.push(said('import.age-too-old', { age: cell }));
    return null;
  }
  if (arrived === null || born.latest <= arrived) return born;
  // True on a later day than the arrival: it was born by then all the same.
  if (born.earliest <= arrived) return { ...born, latest: arrived };
  doubts.push(said('import.age-after-arrival', { age: cell, on: { date: ageOn }, arrived: { date: arrived } }));
  return null;
}

/** The doubt of a row whose birth waits for the day on which the ages of the file were true. */
export const askedAge = 'import.age-day-asked';
