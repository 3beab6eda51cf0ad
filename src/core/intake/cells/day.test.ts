import { describe, expect, test } from 'vitest';
import type { CalendarDate } from '../../calendar.js';
import { type DayOrder, provenOrder, readDay } from './day.js';

const today = '2026-06-15' as CalendarDate;
const read = (cell: string, order: DayOrder | null = null) => {
  const reading = readDay(cell, order, today);
  if (reading.state === 'read') return reading.day;
  return reading.state === 'two-readings' ? reading.days.join(' or ') : reading.state;
};

describe('days of a file (Verifies: IMP-R7)', () => {
  test.each([
    ['2026-03-08', '2026-03-08'],
    ['2026/3/8', '2026-03-08'],
    ['20210623', '2021-06-23'],
    ['2013-10-13 12:44:00', '2013-10-13'],
    ['2026-03-08T23:30:00-08:00', '2026-03-08'],
    ['2026-03-08T00:00:00.000Z', '2026-03-08'],
    ['8.3.2026', '2026-03-08'],
    ['15 May 2018', '2018-05-15'],
    ['May 15th, 2018', '2018-05-15'],
    ['15-MAY-18', '2018-05-15'],
    ['3. März 2026', '2026-03-03'],
    ['05/15/2018', '2018-05-15'],
    ['15/05/2018', '2018-05-15'],
    ['05/05/2018', '2018-05-05'],
    ['03/08/2026 12:00:00 AM', '2026-08-03 or 2026-03-08'],
    ['', 'blank'],
    ['N/A', 'blank'],
    ['2026-02-31', 'no-such-day'],
    ['31/02/2026', 'no-such-day'],
    ['2025-02-29', 'no-such-day'],
    ['2026-00-10', 'no-such-day'],
    ['13/13/2026', 'no-such-day'],
    ['spring', 'not-a-day'],
    ['45123', 'not-a-day'],
    ['2026', 'not-a-day'],
    ['DEC.2023', 'not-a-day'],
    ['Kitten 2 May', 'not-a-day'],
  ])('%s', (cell, expected) => {
    expect(read(cell)).toBe(expected);
  });
  test('case 4: a midnight behind the date does not move it', () => {
    expect(read('03/08/2026 12:00:00 AM', 'month-first')).toBe('2026-03-08');
    expect(read('03/08/2026 12:00:00 AM', 'day-first')).toBe('2026-08-03');
  });
  test('a known order is kept even when only the other gives a day', () => {
    expect(read('31/12/2025', 'month-first')).toBe('no-such-day');
  });
  test('years of two figures are never later than this year', () => {
    expect(read('05/20/26', 'month-first')).toBe('2026-05-20');
    expect(read('05/20/27', 'month-first')).toBe('1927-05-20');
  });
  test.each([
    [['03/08/2026', '03/15/2026'], 'month-first'],
    [['03/08/2026', '15/03/2026'], 'day-first'],
    [['03/08/2026', '04/05/2026'], null],
    [['03/15/2026', '15/03/2026'], 'mixed'],
    [['2026-03-15', '15.03.2026', ''], null],
  ])('%j proves %s', (cells, order) => {
    expect(provenOrder(cells)).toBe(order);
  });
});
