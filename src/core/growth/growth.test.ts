import { describe, expect, test } from 'vitest';
import { ageHintFromWeight, poundAMonth } from './age-hint.js';
import { growthAlarms } from './alarms.js';
import { expectedGain, gainBetween } from './gain.js';
import { believable, weightTables } from './weight-tables.js';

/** Weighings as `hours:grams`, counted from one morning. */
const curve = (text: string) =>
  text.split(' ').map((each) => {
    const [hours = 0, grams = 0] = each.split(':').map(Number);
    const day = 1 + Math.floor((8 + hours) / 24);
    const at = `2026-03-${String(day).padStart(2, '0')}T${String((8 + hours) % 24).padStart(2, '0')}:00:00Z`;
    return { at, grams };
  });
const codes = (text: string, ageDays: number | null) =>
  growthAlarms({ weighings: curve(text), ageDays }).map((alarm) => alarm.code);

describe('gain (Verifies: GROW-R1)', () => {
  test('is over the real hours', () => {
    const [a, b] = curve('0:150 36:165');
    expect(a && b && gainBetween(a, b)).toMatchObject({ hours: 36, grams: 15, gramsPerDay: '10', percent: '10' });
    expect(a && gainBetween(a, a)).toBeNull();
  });
  test('is expected up to 8 weeks', () => {
    expect(expectedGain(55)).toEqual({ least: 7, usual: 14 });
    expect(expectedGain(56)).toBeNull();
  });
});

describe('alarms (Verifies: GROW-R1, GROW-R2, GROW-R3, GROW-R4, GROW-R5)', () => {
  test.each<[string, number | null, string[]]>([
    ['0:150', 14, []],
    ['0:150 24:157', 14, []],
    ['0:150 24:156', 14, ['slow-gain']],
    ['0:150 24:150', 14, ['no-gain']],
    ['0:150 12:153', 14, ['slow-gain']],
    ['0:150 12:154', 14, []],
    ['0:150 6:149', 14, []],
    ['0:150 20:156 24:155', 14, ['slow-gain']],
    ['0:412 24:391', 30, ['loss']],
    ['0:400 24:360', 30, ['loss-tenth']],
    ['0:400 24:380 48:360', 30, ['loss-tenth']],
    ['0:400 24:361', 30, ['loss']],
    ['0:400 96:360', 30, ['loss-tenth']],
    ['0:98 24:98', 1, ['newborn-no-gain']],
    ['0:98 24:97', 2, ['newborn-no-gain']],
    ['0:100 192:200', 8, []],
    ['0:100 216:199', 9, ['birth-weight-not-doubled']],
    ['0:100 216:200', 9, []],
    ['0:3000 168:2950', 400, ['loss']],
    ['0:3000 168:3000', 400, []],
    ['0:650 24:650', null, []],
  ])('%s at %s days: %j', (text, ageDays, expected) => {
    expect(codes(text, ageDays)).toEqual(expected);
  });

  test.each<[string, number | null, string[]]>([
    ['0:902 134:830', 63, ['loss-week']],
    ['0:1000 134:950', 63, ['loss-week']],
    ['0:1000 134:951', 63, ['loss']],
    ['0:1000 80:940 160:945', 63, ['loss-week']],
    ['0:1000 80:940 169:945', 63, ['no-gain-week']],
    ['0:1000 80:950 160:900', 63, ['loss-tenth']],
    ['0:1000 134:940', 139, ['loss-week']],
    ['0:1000 134:940', 140, ['loss']],
    ['0:400 80:370 100:378', 30, ['loss-week']],
    ['0:902 134:830', null, ['loss']],
  ])(
    'under 20 weeks a loss is looked for over 7 days: %s at %s days: %j (Verifies: ROUND-R85)',
    (text, age, expected) => {
      expect(codes(text, age)).toEqual(expected);
    },
  );

  test.each<[string, number | null, string[]]>([
    ['0:1000 168:1000', 63, ['no-gain-week']],
    ['0:1000 84:1000 168:995', 63, ['no-gain-week']],
    ['0:1000 144:990', 63, ['no-gain-week']],
    ['0:1000 143:990', 63, ['loss']],
    ['0:1000 168:1010', 63, []],
    ['0:1000 505:1000', 100, []],
    ['0:1000 168:1000', 140, []],
    ['0:1000 168:1000', null, []],
    ['0:4000 168:3850 336:3720 504:3590', 400, ['loss-month']],
    ['0:4000 168:3850 336:3720 504:3610', 400, ['loss']],
    ['0:4000 240:3800 480:3700 720:3600', 400, ['loss-month']],
    ['0:4000 240:3800 480:3700 721:3600', 400, ['loss']],
    ['0:1000 200:950 400:900', null, ['loss-month']],
  ])('what is lost, or not gained, slowly: %s at %s days: %j (Verifies: LOG-R173)', (text, age, expected) => {
    expect(codes(text, age)).toEqual(expected);
  });

  test('order of entry does not matter, doubtful weights do not count', () => {
    const points = curve('0:150 24:157 48:165');
    expect(growthAlarms({ weighings: [...points].reverse(), ageDays: 14 })).toEqual([]);
    const wrong = curve('0:150 24:16 48:165').map((one) => ({ ...one, doubtful: one.grams === 16 }));
    expect(growthAlarms({ weighings: wrong, ageDays: 14 })).toEqual([]);
    expect(growthAlarms({ weighings: [], ageDays: 14 })).toEqual([]);
  });

  test('a loss of a tenth and a newborn without gain stop, the rest asks for attention', () => {
    const severity = (text: string, age: number) => growthAlarms({ weighings: curve(text), ageDays: age })[0]?.severity;
    expect([severity('0:400 24:360', 30), severity('0:98 24:98', 1), severity('0:412 24:400', 30)]).toEqual([
      'stop',
      'stop',
      'attention',
    ]);
  });
});

describe('tables (Verifies: GROW-R6, GROW-R7)', () => {
  test('rise with age and name their source', () => {
    for (const table of weightTables) {
      expect(table.source).not.toBe('');
      const rows = [...table.rows];
      expect(rows.map((row) => row.ageDays)).toEqual(rows.map((row) => row.ageDays).sort((a, b) => a - b));
      for (const [index, row] of rows.entries()) {
        expect(row.to_g).toBeGreaterThanOrEqual(row.from_g);
        if (index > 0) expect(row.from_g).toBeGreaterThan(rows[index - 1]?.from_g ?? 0);
      }
    }
  });
  test('the believed range opens with an estimated age', () => {
    expect(believable({ youngest: 14, oldest: 14 })).toEqual({ from_g: 84, to_g: 700 });
    expect(believable({ youngest: 14, oldest: 30 })).toEqual({ from_g: 84, to_g: 1300 });
    expect(believable({ youngest: -3, oldest: 2 }).from_g).toBe(28);
  });
  test('an age from weight is a hint', () => {
    expect(ageHintFromWeight(680)).toMatchObject({ days: [42, 42], why: { say: 'growth.age-hint' } });
    expect(ageHintFromWeight(650)).toMatchObject({ days: [35, 42] });
    expect(ageHintFromWeight(3000).days).toBeNull();
    expect(poundAMonth(680)).toBe('1.5');
  });
});
