import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import type { CalendarDate } from '../../calendar.js';
import { bornFromAge, readAgeText } from './age-text.js';

const born = (cell: string, on: string) => {
  const age = readAgeText(cell);
  return age === null ? null : Object.values(bornFromAge(age, on as CalendarDate)).join('..');
};

describe('ages in words (Verifies: IMP-R8)', () => {
  test.each([
    ['1 year', '2024-06-16..2025-06-15'],
    ['2 years', '2023-06-16..2024-06-15'],
    ['0 years', '2025-06-16..2026-06-15'],
    ['2 months', '2026-03-16..2026-04-15'],
    ['7 MONTHS', '2025-10-16..2025-11-15'],
    ['1 week', '2026-06-02..2026-06-08'],
    ['1 weeks', '2026-06-02..2026-06-08'],
    ['5 weeks', '2026-05-05..2026-05-11'],
    ['4 days', '2026-06-11..2026-06-11'],
    ['5w', '2026-05-05..2026-05-11'],
    ['1 yr 6 mos', '2024-11-16..2024-12-15'],
    ['2 years and 3 months', '2024-02-16..2024-03-15'],
    ['6-8 weeks', '2026-04-14..2026-05-04'],
    ['approx. 3 months old', '2026-02-16..2026-03-15'],
  ])('%s on 15 June 2026', (cell, interval) => {
    expect(born(cell, '2026-06-15')).toBe(interval);
  });
  test.each(['', 'NO AGE', 'adult', '3', 'kitten 2', '3 m 2 m', '2 weeks 1 year', '8-6 weeks', '-1 weeks'])(
    '"%s" is not an age',
    (cell) => {
      expect(readAgeText(cell)).toBeNull();
    },
  );
  test('at the ends of months', () => {
    expect(born('1 month', '2026-03-31')).toBe('2026-02-01..2026-02-28');
    expect(born('1 year', '2024-02-29')).toBe('2022-03-01..2023-02-28');
  });
  test('the interval is every day on which the age in full months is the one written', () => {
    const day = fc.integer({ min: 0, max: 1500 }).map((days) => Temporal.PlainDate.from('2023-01-01').add({ days }));
    fc.assert(
      fc.property(day, fc.integer({ min: 0, max: 30 }), (on, months) => {
        const age = readAgeText(`${months} months`);
        const { earliest, latest } = bornFromAge(age ?? expect.unreachable(), on.toString() as CalendarDate);
        // Full months reached, an unreal day rolling to the first of the next month (the calendar rule of the core).
        const full = (born: Temporal.PlainDate): number => {
          const total = (on.year - born.year) * 12 + on.month - born.month;
          return on.day >= born.day ? total : total - 1;
        };
        expect(full(Temporal.PlainDate.from(earliest))).toBe(months);
        expect(full(Temporal.PlainDate.from(latest))).toBe(months);
        expect(full(Temporal.PlainDate.from(earliest).subtract({ days: 1 }))).toBeGreaterThan(months);
        const after = Temporal.PlainDate.from(latest).add({ days: 1 });
        if (Temporal.PlainDate.compare(after, on) <= 0) expect(full(after)).toBeLessThan(months);
      }),
    );
  });
});
