import { type CalendarDate, isRealDay } from '../../calendar.js';
import { wordsOf } from '../compare.js';

/** How a file writes days in figures with the year last. */
export type DayOrder = 'day-first' | 'month-first';

export type DayReading =
  | { readonly state: 'read'; readonly day: CalendarDate }
  /** Nothing there, or a word for nothing. */
  | { readonly state: 'blank' }
  /** Both orders give a day and the order of this file is not known. */
  | { readonly state: 'two-readings'; readonly days: readonly [CalendarDate, CalendarDate] }
  /** It has the shape of a day, but the calendar has no such day (31 February). */
  | { readonly state: 'no-such-day' }
  | { readonly state: 'not-a-day' };

interface Parts {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const monthWords = [
  /^jan/,
  /^(feb|fev|fév)/,
  /^(mar|mär|mrz)/,
  /^(apr|avr|abr)/,
  /^(may|mai)/,
  /^(jun|juin)/,
  /^(jul|juil)/,
  /^(aug|aou|ago)/,
  /^sep/,
  /^(oct|okt)/,
  /^nov/,
  /^(dec|dez|dic)/,
];

/** A time of day after the date, with or without zone: it never moves the day that is written. */
const timeOfDay = String.raw`(?:[T ,]+\d{1,2}[:.]\d{2}(?:[:.]\d{2}(?:\.\d+)?)?\s*(?:[ap]\.?m\.?)?\s*(?:Z|UTC|[+-]\d{2}:?\d{2})?)?`;
const yearFirst = new RegExp(String.raw`^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})${timeOfDay}$`, 'i');
const packed = /^((?:19|20)\d{2})(\d{2})(\d{2})$/;
const yearLast = new RegExp(String.raw`^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})${timeOfDay}$`, 'i');

/**
 * A calendar day from a cell. Years of two figures are read as the latest year that is not after `today`. A text with
 * the year last is read by `order`; without an order it is `two-readings` unless only one of the two is a day, and
 * points between the figures mean day first (ISO-independent habit; common practice, no source).
 */
export function readDay(cell: string, order: DayOrder | null, today: CalendarDate): DayReading {
  const text = cell.trim();
  if (/^(|-+|\?+|n\/?a|none|unknown|null)$/i.test(text)) return { state: 'blank' };
  const iso = yearFirst.exec(text);
  if (iso !== null) return dayOf({ year: Number(iso[1]), month: Number(iso[3]), day: Number(iso[4]) });
  const short = packed.exec(text);
  if (short !== null) return dayOf({ year: Number(short[1]), month: Number(short[2]), day: Number(short[3]) });
  const last = yearLast.exec(text);
  if (last !== null) {
    const year = fullYear(last[4] ?? '', today);
    const pair = [Number(last[1]), Number(last[3])] as const;
    return inOrder(pair, year, last[2] === '.' ? 'day-first' : order);
  }
  return withMonthWord(text, today);
}

function inOrder([first, second]: readonly [number, number], year: number, order: DayOrder | null): DayReading {
  const dayFirst = dayOf({ year, month: second, day: first });
  const monthFirst = dayOf({ year, month: first, day: second });
  if (order === 'day-first') return dayFirst;
  if (order === 'month-first') return monthFirst;
  if (dayFirst.state !== 'read' || monthFirst.state !== 'read')
    return dayFirst.state === 'read' ? dayFirst : monthFirst;
  return dayFirst.day === monthFirst.day ? dayFirst : { state: 'two-readings', days: [dayFirst.day, monthFirst.day] };
}

/** `15 May 2018`, `May 15, 2018`, `15-May-18`. */
function withMonthWord(text: string, today: CalendarDate): DayReading {
  const date = new RegExp(`^(.*?\\d{4}|.*?)${timeOfDay}$`, 'i').exec(text)?.[1] ?? text;
  const words = wordsOf(date).filter((word) => !/^(st|nd|rd|th|de|of)$/.test(word));
  if (words.length !== 3) return { state: 'not-a-day' };
  const month = words.map((word) => monthWords.findIndex((shape) => shape.test(word)) + 1);
  const at = month.findIndex((number) => number > 0);
  const [day, year] = words.filter((_, index) => index !== at);
  if (at === -1 || at === 2 || !/^\d{1,2}$/.test(day ?? '') || !/^(\d{4}|\d{2})$/.test(year ?? '')) {
    return { state: 'not-a-day' };
  }
  return dayOf({ year: fullYear(year ?? '', today), month: month[at] ?? 0, day: Number(day) });
}

function fullYear(text: string, today: CalendarDate): number {
  if (text.length === 4) return Number(text);
  const now = Number(today.slice(0, 4));
  const inThisCentury = now - (now % 100) + Number(text);
  return inThisCentury > now ? inThisCentury - 100 : inThisCentury;
}

function dayOf({ year, month, day }: Parts): DayReading {
  const text = [String(year).padStart(4, '0'), pair(month), pair(day)].join('-');
  return isRealDay(text) ? { state: 'read', day: text as CalendarDate } : { state: 'no-such-day' };
}

const pair = (figure: number): string => String(figure).padStart(2, '0');

/**
 * The order that the cells of one file prove: a first figure above 12 is a day, a second one too. `null` when no cell
 * proves either, `'mixed'` when cells prove both.
 */
export function provenOrder(cells: Iterable<string>): DayOrder | 'mixed' | null {
  let proven: DayOrder | null = null;
  for (const cell of cells) {
    const parts = yearLast.exec(cell.trim());
    if (parts === null || parts[2] === '.') continue;
    const [first, second] = [Number(parts[1]), Number(parts[3])];
    const shows = first > 12 && second <= 12 ? 'day-first' : second > 12 && first <= 12 ? 'month-first' : null;
    if (shows === null) continue;
    if (proven !== null && proven !== shows) return 'mixed';
    proven = shows;
  }
  return proven;
}

/** True when a cell has the year last and figures only, so that its order matters. */
export const hasOrder = (cell: string): boolean => {
  const parts = yearLast.exec(cell.trim());
  return parts !== null && parts[2] !== '.' && parts[1] !== parts[3];
};
