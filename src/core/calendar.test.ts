import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it, test } from 'vitest';
import {
  addDays,
  addSpan,
  ageDays,
  asDay,
  CalendarDate,
  compareDays,
  dayFromNumber,
  dayNumber,
  dayOfInstant,
  daysBetween,
  epochMs,
  InstantText,
  instantAt,
  isKnownZone,
  isRealDay,
  isRealInstant,
  maximum,
  ZoneName,
} from './calendar.js';

const day = (text: string): CalendarDate => CalendarDate.parse(text);
const anyDay = fc.integer({ min: 0, max: 3_652_424 }).map(dayFromNumber);
const ourDays = fc.integer({ min: dayNumber(day('1995-01-01')), max: dayNumber(day('2045-12-31')) }).map(dayFromNumber);

describe('instants', () => {
  it('are counted as the library counts them, in every way they may be written', () => {
    const some = fc.date({ min: new Date('1900-01-01'), max: new Date('2200-01-01'), noInvalidDate: true });
    fc.assert(
      fc.property(some, fc.constantFrom(0, 3, 9), (date, places) => {
        const [seconds, thousandths = ''] = date.toISOString().slice(0, -1).split('.');
        const text = `${seconds}${places === 0 ? '' : `.${thousandths.padEnd(places, '7')}`}Z`;
        expect(epochMs(text)).toBe(Temporal.Instant.from(text).epochMilliseconds);
      }),
    );
    for (const text of ['2026-02-30T10:00:00.000Z', '2026-03-01T24:00:00.000Z', 'yesterday'])
      expect(() => epochMs(text)).toThrow();
  });
});

describe('days that exist', () => {
  test.each(['2024-02-29', '2000-02-29', '0000-01-01', '9999-12-31'])('%s does', (text) => {
    expect(isRealDay(text)).toBe(true);
    expect(asDay(text)).toBe(text);
  });

  test.each([
    '2023-02-29',
    '1900-02-29',
    '2026-04-31',
    '2026-13-01',
    '2026-00-10',
    '2026-01-00',
    '2026-1-1',
    '03/08/2026',
    '',
  ])('%s does not', (text) => {
    expect(isRealDay(text)).toBe(false);
    expect(asDay(text)).toBeNull();
  });

  it('are the days that Temporal knows', () => {
    const parts = fc.tuple(
      fc.integer({ min: 0, max: 9999 }),
      fc.integer({ min: 0, max: 15 }),
      fc.integer({ min: 0, max: 33 }),
    );
    fc.assert(
      fc.property(parts, ([year, month, date]) => {
        const text = [
          String(year).padStart(4, '0'),
          String(month).padStart(2, '0'),
          String(date).padStart(2, '0'),
        ].join('-');
        expect(isRealDay(text)).toBe(isTemporalDay(text));
      }),
    );
  });
});

function isTemporalDay(text: string): boolean {
  try {
    Temporal.PlainDate.from(text, { overflow: 'reject' });
    return true;
  } catch {
    return false;
  }
}

describe('counting days, Verifies: CAL-R1', () => {
  it('agrees with Temporal on every day asked', () => {
    fc.assert(
      fc.property(anyDay, anyDay, (a, b) => {
        const days = Temporal.PlainDate.from(a).until(Temporal.PlainDate.from(b), { largestUnit: 'day' }).days;
        expect(daysBetween(a, b)).toBe(days);
        expect(dayFromNumber(dayNumber(a))).toBe(a);
        expect(compareDays(a, b)).toBe(Temporal.PlainDate.compare(a, b));
      }),
    );
  });

  it('adds days as Temporal does', () => {
    fc.assert(
      fc.property(ourDays, fc.integer({ min: -5000, max: 5000 }), (date, days) => {
        expect(addDays(date, days)).toBe(Temporal.PlainDate.from(date).add({ days }).toString());
      }),
    );
  });

  // Published failure: 1 March 08:00 and 14 times 24 hours is 15 March 09:00 where clocks go forward on 8 March.
  it('knows nothing of clock changes', () => {
    expect(addDays(day('2026-03-01'), 14)).toBe('2026-03-15');
    expect(daysBetween(day('2026-03-01'), day('2026-03-15'))).toBe(14);
    expect(daysBetween(day('2026-10-25'), day('2026-11-08'))).toBe(14);
  });

  // Published failure: a weekly Sunday job came out as Saturday on the day clocks went forward in Sydney.
  it('keeps the weekday over a clock change', () => {
    const sundays = [4, 5, 6].map((week) => addSpan(day('2026-09-06'), { weeks: week }));
    expect(sundays).toEqual(['2026-10-04', '2026-10-11', '2026-10-18']);
    expect(sundays.map((date) => Temporal.PlainDate.from(date).dayOfWeek)).toEqual([7, 7, 7]);
  });

  it('stops at the ends of the four-digit years instead of failing', () => {
    expect(addDays(day('9999-12-30'), 10)).toBe('9999-12-31');
    expect(addSpan(day('9999-12-30'), { years: 5 })).toBe('9999-12-31');
    expect(addSpan(day('0000-01-02'), { months: -3 })).toBe('0000-01-01');
  });

  it('finds the first and the last of several', () => {
    expect(maximum(day('2026-03-02'), day('2026-03-01'), day('2026-04-01'))).toBe('2026-04-01');
  });
});

describe('adding a span, Verifies: CAL-R2, CAL-R3, CAL-R4', () => {
  const spans = fc.record({
    years: fc.integer({ min: -3, max: 25 }),
    months: fc.integer({ min: -30, max: 60 }),
    weeks: fc.integer({ min: -60, max: 60 }),
    days: fc.integer({ min: -400, max: 400 }),
  });

  it('is what Temporal gives where the day exists, else the first of the next month', () => {
    fc.assert(
      fc.property(ourDays, spans, (date, span) => {
        const start = Temporal.PlainDate.from(date);
        const month = start.toPlainYearMonth().add({ months: span.years * 12 + span.months });
        const exists = start.day <= month.daysInMonth;
        const landed = exists
          ? month.toPlainDate({ day: start.day })
          : month.add({ months: 1 }).toPlainDate({ day: 1 });
        expect(addSpan(date, span)).toBe(landed.add({ days: span.weeks * 7 + span.days }).toString());
      }),
    );
  });

  it('never goes backwards when a later day is taken', () => {
    fc.assert(
      fc.property(ourDays, fc.nat(40), spans, (date, later, span) => {
        expect(addSpan(addDays(date, later), span) >= addSpan(date, span)).toBe(true);
      }),
    );
  });

  it('takes twelve months for a year and seven days for a week', () => {
    fc.assert(
      fc.property(ourDays, fc.integer({ min: -10, max: 10 }), (date, n) => {
        expect(addSpan(date, { years: n })).toBe(addSpan(date, { months: 12 * n }));
        expect(addSpan(date, { weeks: n })).toBe(addSpan(date, { days: 7 * n }));
      }),
    );
  });
});

describe('instants and days, Verifies: CAL-R5, CAL-R6', () => {
  // Published failure: a birth date typed in Los Angeles was another day in Auckland.
  it('a day has no zone to be moved by', () => {
    expect(CalendarDate.parse('2026-03-08')).toBe('2026-03-08');
    expect(JSON.parse(JSON.stringify({ born: day('2026-03-08') })).born).toBe('2026-03-08');
  });

  // Published failure: daily 08:00 in Chicago became 09:00 after the clocks went forward.
  test.each([
    ['2026-03-07', '2026-03-07T14:00:00.000Z'],
    ['2026-03-08', '2026-03-08T13:00:00.000Z'],
    ['2026-03-09', '2026-03-09T13:00:00.000Z'],
  ])('08:00 in Chicago on %s stays 08:00', (date, instant) => {
    expect(instantAt(day(date), '08:00', 'America/Chicago')).toBe(instant);
    expect(dayOfInstant(instant, 'America/Chicago')).toBe(date);
  });

  it('moves a time that clocks skip on by the gap, and takes the first of one that happens twice', () => {
    expect(instantAt(day('2026-03-08'), '02:30', 'America/Chicago')).toBe('2026-03-08T08:30:00.000Z');
    expect(instantAt(day('2026-11-01'), '01:30', 'America/Chicago')).toBe('2026-11-01T06:30:00.000Z');
  });

  it('an instant is another day in another zone', () => {
    expect(dayOfInstant('2026-03-08T23:30:00Z', 'Pacific/Auckland')).toBe('2026-03-09');
    expect(dayOfInstant('2026-03-08T02:00:00Z', 'America/St_Johns')).toBe('2026-03-07');
  });

  it('fall on the day that the library says, at every hour and beside every change of the clocks', () => {
    const zone = fc.constantFrom(
      'UTC',
      'America/St_Johns',
      'Pacific/Apia',
      'Pacific/Kiritimati',
      'Asia/Kathmandu',
      'Australia/Lord_Howe',
      'Africa/Casablanca',
      'Africa/Monrovia',
      'America/Chicago',
    );
    const some = fc.date({ min: new Date('1960-01-01'), max: new Date('2060-01-01'), noInvalidDate: true });
    const libraryDay = (instant: string, where: string): string =>
      Temporal.Instant.from(instant).toZonedDateTimeISO(where).toPlainDate().toString();
    fc.assert(
      fc.property(some, zone, (date, where) => {
        expect(dayOfInstant(date.toISOString(), where)).toBe(libraryDay(date.toISOString(), where));
      }),
      { numRuns: 400 },
    );
    for (const [from, where] of [
      ['2026-03-08T00:00:00.000Z', 'America/Chicago'],
      ['2011-12-29T12:00:00.000Z', 'Pacific/Apia'],
      ['2026-04-04T06:00:00.000Z', 'Australia/Lord_Howe'],
    ] as const) {
      for (let minute = 0; minute < 48 * 60; minute += 10) {
        const instant = new Date(Date.parse(from) + minute * 60_000).toISOString();
        expect(dayOfInstant(instant, where)).toBe(libraryDay(instant, where));
      }
    }
  });

  it('the instant of a time on a day falls on that day', () => {
    const zone = fc.constantFrom(
      'UTC',
      'America/St_Johns',
      'Pacific/Auckland',
      'Australia/Lord_Howe',
      'America/Chicago',
    );
    const time = fc
      .tuple(fc.nat(23), fc.nat(59))
      .map(([h, m]) => `${String(h).padStart(2, '0')}:${String(m).padStart(2, '0')}`);
    fc.assert(
      fc.property(ourDays, time, zone, (date, clock, where) => {
        expect(dayOfInstant(instantAt(date, clock, where), where)).toBe(date);
      }),
    );
  });

  it('knows zones by name only', () => {
    expect(['UTC', 'America/Chicago', 'Asia/Kathmandu'].every(isKnownZone)).toBe(true);
    expect(['+02:00', 'Europe/Nowhere', '', 'Chicago time'].some(isKnownZone)).toBe(false);
    expect(ZoneName.safeParse('Europe/Nowhere').success).toBe(false);
  });

  it('takes only instants that exist', () => {
    expect(isRealInstant('2026-03-08T14:07:00.000Z')).toBe(true);
    expect(InstantText.safeParse('2026-03-08T14:07:00Z').success).toBe(true);
    for (const text of [
      '2026-02-30T10:00:00Z',
      '2026-03-08T24:00:00Z',
      '2026-03-08T10:60:00Z',
      '2026-03-08T10:00:60Z',
    ]) {
      expect(isRealInstant(text)).toBe(false);
    }
    expect(isRealInstant('2026-03-08T14:07:00+02:00')).toBe(false);
  });
});

describe('ages, Verifies: CAL-R7', () => {
  // Published failure: a library said 29 February 2016 to 28 February 2017 is one year.
  it('a year from a leap day is reached on 1 March', () => {
    expect(addSpan(day('2024-02-29'), { months: 12 })).toBe('2025-03-01');
  });

  it('is 0 on the day of birth and negative before it', () => {
    expect(ageDays(day('2026-03-08'), day('2026-03-08'))).toBe(0);
    expect(ageDays(day('2026-03-08'), day('2026-03-01'))).toBe(-7);
  });
});
