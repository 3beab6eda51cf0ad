import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, CalendarDate } from '../calendar.js';
import { dayOfClock, quarantineDay, quarantineOf, releaseDay, traceBackFrom } from './quarantine.js';

const day = (text: string) => CalendarDate.parse(text);

describe('quarantine days', () => {
  test('the exposure is day 0 and release the start of day N (Verifies: GROW-R8)', () => {
    const quarantine = quarantineOf(day('2026-05-01'), 14);
    expect(quarantine.release).toBe('2026-05-15');
    expect(quarantineDay(quarantine, day('2026-05-01'))).toEqual({ day: 0, daysLeft: 14, released: false });
    expect(quarantineDay(quarantine, day('2026-05-14'))).toEqual({ day: 13, daysLeft: 1, released: false });
    expect(quarantineDay(quarantine, day('2026-05-15'))).toEqual({ day: 14, daysLeft: 0, released: true });
    expect(releaseDay(day('2028-02-20'), 14)).toBe('2028-03-05');
    expect(dayOfClock(day('2026-05-01'), day('2026-04-30'))).toBe(-1);
  });

  test('a new case restarts the clock for the rest (Verifies: GROW-R9)', () => {
    const cases = ['2026-05-16', '2026-05-06', '2026-04-28'].map(day);
    expect(quarantineOf(day('2026-05-01'), 14, cases)).toEqual({
      exposedOn: '2026-05-01',
      from: '2026-05-16',
      release: '2026-05-30',
      restarts: ['2026-05-06', '2026-05-16'],
      afterRelease: [],
    });
    const late = quarantineOf(day('2026-05-01'), 14, [day('2026-05-15')]);
    expect([late.release, late.afterRelease]).toEqual(['2026-05-15', ['2026-05-15']]);
  });

  test('more cases never bring the release forward, in whatever order they are told', () => {
    const offset = fc.integer({ min: -5, max: 60 });
    fc.assert(
      fc.property(fc.array(offset, { maxLength: 8 }), fc.integer({ min: 1, max: 30 }), (offsets, days) => {
        const exposed = day('2026-05-01');
        const cases = offsets.map((each) => addDays(exposed, each));
        const all = quarantineOf(exposed, days, cases);
        expect(all.release >= releaseDay(exposed, days)).toBe(true);
        expect(quarantineOf(exposed, days, [...cases].reverse())).toEqual(all);
        expect(quarantineOf(exposed, days, cases.slice(1)).release <= all.release).toBe(true);
      }),
    );
  });

  test('trace-back counts from the first sick animal (Verifies: GROW-R10)', () => {
    expect(traceBackFrom(day('2026-05-10'), 14)).toBe('2026-04-26');
  });
});
