import { expect, test } from 'vitest';
import { readTimes, usualTimes } from './order-timing-fields.js';

const typed = { ...usualTimes, timing: 'times', at: '20:00, 8:00' } as const;
const number = (text: string) => ({ text, chosen: null });

test('times of a day are put in order and written in full', () => {
  expect(readTimes(typed)).toEqual({
    timing: { is: 'times', times: ['08:00', '20:00'] },
    startsAt: null,
    leastHours: null,
    mostADay: null,
    ends: { is: 'after-days', days: 3 },
  });
});

test('every so many hours takes its first time, and may go on until ended', () => {
  expect(readTimes({ ...typed, timing: 'hours', every: '8', at: '06:30', ends: 'when-ended' })).toEqual({
    timing: { is: 'hours', every: 8 },
    startsAt: '06:30',
    leastHours: null,
    mostADay: null,
    ends: { is: 'when-ended' },
  });
});

test('what cannot be read is no order', () => {
  expect(readTimes({ ...typed, at: '25:00' })).toBeNull();
  expect(readTimes({ ...typed, at: '' })).toBeNull();
  expect(readTimes({ ...typed, timing: 'days', every: '1,5' })).toBeNull();
  expect(readTimes({ ...typed, count: '0' })).toBeNull();
});

test('as needed takes its reason and how long lies between two, with a most in a day', () => {
  const needed = {
    ...typed,
    timing: 'as-needed',
    reason: ' pain ',
    leastHours: number('4'),
    most: number('3'),
  } as const;
  expect(readTimes(needed)).toEqual({
    timing: { is: 'as-needed', reason: 'pain', turn: 1 },
    startsAt: null,
    leastHours: 4,
    mostADay: { amount: '3', unit: 'times' },
    ends: { is: 'after-days', days: 3 },
  });
  expect(readTimes({ ...needed, leastHours: number('') })).toBeNull();
  expect(readTimes({ ...needed, reason: ' ' })).toBeNull();
  expect(readTimes({ ...needed, most: number('4-6') })).toBeNull();
});

test('a range of hours is not read as one of its ends', () => {
  expect(readTimes({ ...typed, timing: 'hours', every: '4-6', at: '06:30' })).toBeNull();
});
