import { describe, expect, test } from 'vitest';
import type { CalendarDate } from '../../calendar.js';
import { readBirth } from './birth.js';

const today = '2026-06-15' as CalendarDate;
const read = (born: string, age: string, arrived: string | null, ageOn: string | null = arrived) => {
  const cells = { born, age, ageOn: ageOn as CalendarDate | null, bornHere: '' };
  const reading = readBirth(cells, arrived as CalendarDate | null, 'month-first', today);
  const { earliest, latest, basis } = reading.born;
  return [`${basis} ${earliest}..${latest}`, ...reading.doubts.map((doubt) => doubt.say)];
};

describe('birth dates counted back from a guessed age (Verifies: IMP-R9)', () => {
  test('a date of its own is known to the day', () => {
    expect(read('05/10/2017', '', '2018-05-15')).toEqual(['known 2017-05-10..2017-05-10']);
  });
  // Row K18-028261 of the Sonoma file: born 05/15/2010, taken in 05/15/2018.
  test('on the anniversary: full years', () => {
    expect(read('05/15/2010', '', '2018-05-15')).toEqual(['estimated 2009-05-16..2010-05-15']);
  });
  test('on the same day of another month: full months', () => {
    expect(read('2018-03-15', '', '2018-05-15')).toEqual(['estimated 2018-02-16..2018-03-15']);
    expect(read('2016-11-15', '', '2018-05-15')).toEqual(['estimated 2016-10-16..2016-11-15']);
  });
  test('on the day of arrival itself: anything under a year', () => {
    expect(read('2018-05-15', '', '2018-05-15')).toEqual(['estimated 2017-05-16..2018-05-15']);
  });
  test('without an arrival nothing can be concluded', () => {
    expect(read('2018-03-15', '', null)).toEqual(['known 2018-03-15..2018-03-15']);
  });
});

describe('birth dates that cannot be (Verifies: IMP-R10)', () => {
  test.each([
    ['2018-06-01', 'import.born-after-arrival'],
    ['2031-03-30', 'import.born-in-future'],
    ['1970-01-01', 'import.born-long-ago'],
    ['02/31/2018', 'import.no-such-day'],
    ['spring', 'import.not-a-day'],
  ])('%s gives way to the age', (born, doubt) => {
    expect(read(born, '2 months', '2018-05-15')).toEqual(['estimated 2018-02-16..2018-03-15', doubt]);
  });
  test('and to unknown without one', () => {
    expect(read('2018-06-01', '', '2018-05-15')).toEqual([
      'unknown 1993-05-15..2018-05-15',
      'import.born-after-arrival',
    ]);
  });
  test('a date and an age that do not fit', () => {
    expect(read('2018-05-01', '3 years', '2018-05-15')).toEqual([
      'known 2018-05-01..2018-05-01',
      'import.birth-and-age-differ',
    ]);
    expect(read('2018-03-20', '1 month', '2018-05-15')).toEqual(['known 2018-03-20..2018-03-20']);
  });
});

describe('ages (Verifies: IMP-R8)', () => {
  test('refer to their own date', () => {
    expect(read('', '2 years', '2013-06-01', '2016-01-01')).toEqual(['estimated 2013-01-02..2013-06-01']);
  });
  test('without a date say nothing', () => {
    expect(read('', '1 year', null)).toEqual(['unknown 2001-06-15..2026-06-15', 'import.age-without-date']);
  });
  test.each(['', 'NO AGE', 'unknown', '-'])('"%s" is no age and no doubt', (age) => {
    expect(read('', age, '2018-05-15')).toEqual(['unknown 1993-05-15..2018-05-15']);
  });
  test('what cannot be read is a doubt', () => {
    expect(read('', 'adult', '2018-05-15')).toEqual(['unknown 1993-05-15..2018-05-15', 'import.age-not-read']);
  });
});
