import { type CalendarDate, instantAt } from '../../core/calendar.js';

/** A time on paper: read, or said not to be there; `open` while neither is so. */
export type PaperTime = { readonly is: 'at'; readonly at: string } | { readonly is: 'not-written' | 'open' };

export const noTimeYet: PaperTime = { is: 'open' };
export const instantOf = (time: PaperTime): string | null => (time.is === 'at' ? time.at : null);

const shape = /^([01]?\d|2[0-3])[:.]?([0-5]\d)$/;

/** Whether a text is a time of day: `9:05`, `09.05` or `0905`. */
export const isTime = (text: string): boolean => shape.test(text.trim());

/** The instant that a time on a sheet stands for, in the shelter's zone; `open` while day or time cannot be read. */
export function readPaperTime(on: CalendarDate | null, text: string, zone: string): PaperTime {
  const time = shape.exec(text.trim());
  if (on === null || time === null) return noTimeYet;
  return { is: 'at', at: instantAt(on, `${(time[1] ?? '').padStart(2, '0')}:${time[2]}`, zone) };
}
