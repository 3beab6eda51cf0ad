import { expect, test } from 'vitest';
import { readTimes } from './order-timing-fields.js';

const typed = { timing: 'times', every: '1', at: '20:00, 8:00', ends: 'after-days', count: '3' } as const;

test('times of a day are put in order and written in full', () => {
  expect(readTimes(typed)).toEqual({
    timing: { is: 'times', times: ['08:00', '20:00'] },
    startsAt: null,
    ends: { is: 'after-days', days: 3 },
  });
});

test('every so many hours takes its first time, and may go on until ended', () => {
  expect(readTimes({ ...typed, timing: 'hours', every: '8', at: '06:30', ends: 'when-ended' })).toEqual({
    timing: { is: 'hours', every: 8 },
    startsAt: '06:30',
    ends: { is: 'when-ended' },
  });
});

test('what cannot be read is no order', () => {
  expect(readTimes({ ...typed, at: '25:00' })).toBeNull();
  expect(readTimes({ ...typed, at: '' })).toBeNull();
  expect(readTimes({ ...typed, timing: 'days', every: '1,5' })).toBeNull();
  expect(readTimes({ ...typed, count: '0' })).toBeNull();
});
