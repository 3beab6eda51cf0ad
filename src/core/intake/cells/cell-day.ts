import type { CalendarDate } from '../../calendar.js';
import { type Said, said } from '../../said.js';
import type { ImportContext } from '../taken-in.js';
import { readDay } from './day.js';

export const bothDays = ([one, other]: readonly [CalendarDate, CalendarDate]) => ({
  one: { date: one },
  other: { date: other },
});

type Future =
  | 'import.left-in-future'
  | 'import.returned-in-future'
  | 'import.arrived-in-future'
  | 'import.weighed-in-future';

/** A day of a row; one that cannot be read or lies in the future is a doubt and counts as not told. */
export function dayOf(
  cell: string,
  context: Pick<ImportContext, 'dateOrder' | 'today'>,
  doubts: Said[],
  inFuture: Future,
): CalendarDate | null {
  const reading = readDay(cell, context.dateOrder, context.today);
  if (reading.state === 'read') {
    if (reading.day <= context.today) return reading.day;
    doubts.push(said(inFuture, { day: { date: reading.day } }));
  }
  if (reading.state === 'two-readings') {
    doubts.push(said('import.date-two-readings', { cell, ...bothDays(reading.days) }));
  }
  if (reading.state === 'no-such-day') doubts.push(said('import.no-such-day', { cell }));
  if (reading.state === 'not-a-day') doubts.push(said('import.not-a-day', { cell }));
  return null;
}
