import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CalendarDate } from './calendar.js';
import { dayAndTimeOf, wallOf, wallTimeOf } from './wall-time.js';

describe('the clock on the wall', () => {
  it('shows the day and the time to the second, by summer time and half hours, and midnight as 00:00', () => {
    expect(wallOf('2026-03-08T07:59:59.999Z', 'America/Chicago')).toEqual({ day: '2026-03-08', time: '01:59:59' });
    expect(wallOf('2026-03-08T08:00:00.000Z', 'America/Chicago')).toEqual({ day: '2026-03-08', time: '03:00:00' });
    expect(wallOf('2026-01-01T03:30:00.000Z', 'America/St_Johns')).toEqual({ day: '2026-01-01', time: '00:00:00' });
    expect(wallTimeOf('2026-01-01T03:29:59.000Z', 'America/St_Johns')).toBe('23:59');
    expect(() => wallOf('now', 'UTC')).toThrow(RangeError);
  });

  // The platform's own calendar is the second opinion; Swedish writes days and times as ISO 8601 does.
  it('is what the platform says, and one clock for day, minute and time', () => {
    const from = Date.parse('2000-01-01T00:00:00Z');
    const zones = fc.constantFrom('UTC', 'America/St_Johns', 'Pacific/Auckland', 'America/Chicago');
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 * 366 * 86_400 }), zones, (seconds, zone) => {
        const instant = new Date(from + seconds * 1000).toISOString();
        const { day, time } = wallOf(instant, zone);
        expect(`${day} ${time}`).toBe(new Date(instant).toLocaleString('sv-SE', { timeZone: zone }));
        expect(CalendarDate.safeParse(day).success).toBe(true);
        const both = dayAndTimeOf(instant, zone);
        expect([both.time, both.minute - both.day * 1440]).toEqual([
          wallTimeOf(instant, zone),
          Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5)),
        ]);
      }),
    );
  });
});
