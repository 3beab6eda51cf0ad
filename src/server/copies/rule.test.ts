import { describe, expect, it } from 'vitest';
import { copiesToDrop, copyAt, copyName } from './rule.js';

const hour_ms = 3_600_000;
const start = Date.parse('2026-03-31T18:00:00.000Z');
const at = (hours: number): string => new Date(start - hours * hour_ms).toISOString();

describe('which copies are kept (Verifies: COPY-R3)', () => {
  it('is told by their names alone', () => {
    expect(copyName('2026-03-02T12:00:05.123Z', true)).toBe('roundhand-2026-03-02-12-00-05.tar.age');
    expect(copyAt('roundhand-2026-03-02-12-00-05.tar')).toBe('2026-03-02T12:00:05.000Z');
    for (const other of ['roundhand.sqlite', 'roundhand-2026-03-02.tar', 'x-2026-03-02-12-00-05.tar', 'photos'])
      expect(copyAt(other)).toBeNull();
  });

  it('is all of two days, one a day for a month, one a month for a year', () => {
    // Every six hours for two years.
    const names = Array.from({ length: 2 * 365 * 4 }, (_, index) => copyName(at(6 * index), false));
    const gone = new Set(copiesToDrop([...names, 'roundhand.sqlite', 'holiday.jpg']));
    const kept = names.filter((one) => !gone.has(one)).map((one) => copyAt(one) ?? '');
    expect(gone.has('roundhand.sqlite') || gone.has('holiday.jpg')).toBe(false);
    const age = (one: string): number => (start - Date.parse(one)) / hour_ms;
    expect(kept.filter((one) => age(one) <= 48)).toHaveLength(9);
    const perDay = kept.filter((one) => age(one) > 48 && age(one) <= 30 * 24);
    expect(new Set(perDay.map((one) => one.slice(0, 10))).size).toBe(perDay.length);
    expect(perDay.length).toBeGreaterThanOrEqual(27);
    const older = kept.filter((one) => age(one) > 30 * 24);
    expect(new Set(older.map((one) => one.slice(0, 7))).size).toBe(older.length);
    expect(older).toHaveLength(12);
    // Kept again and again, as on every day, it comes to the same.
    expect(copiesToDrop(names.filter((one) => !gone.has(one)))).toEqual([]);
  });

  it('is never the newest, and nothing goes while none is made', () => {
    const [one, other] = [copyName(at(0), false), copyName(at(24 * 400), true)];
    expect(copiesToDrop([one])).toEqual([]);
    expect(copiesToDrop([other, one])).toEqual([]);
    expect(copiesToDrop([])).toEqual([]);
  });
});
