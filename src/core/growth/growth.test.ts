import { describe, expect, test } from 'vitest';
import { starterProtocol } from '../../../test/support/documents.js';
import { alarmsAt, codesAt } from '../../../test/support/weight-rules.js';
import { WeightWatch } from '../protocol/document/weight-watch.js';
import { ageHintFromWeight, poundAMonth } from './age-hint.js';
import { growthAlarms } from './alarms.js';
import { gainBetween } from './gain.js';
import { believable, weightTables } from './weight-tables.js';

/** Weighings as `hours:grams`, counted from one morning. */
const curve = (text: string) =>
  text.split(' ').map((each) => {
    const [hours = 0, grams = 0] = each.split(':').map(Number);
    const day = 1 + Math.floor((8 + hours) / 24);
    const at = `2026-03-${String(day).padStart(2, '0')}T${String((8 + hours) % 24).padStart(2, '0')}:00:00Z`;
    return { at, grams };
  });
const codes = (text: string, ageDays: number | null) => codesAt(curve(text), ageDays);

describe('gain (Verifies: GROW-R1)', () => {
  test('is over the real hours', () => {
    const [a, b] = curve('0:150 36:165');
    expect(a && b && gainBetween(a, b)).toMatchObject({ hours: 36, grams: 15, gramsPerDay: '10', percent: '10' });
    expect(a && gainBetween(a, a)).toBeNull();
  });
});

describe('what the starter protocol tells of a weight (Verifies: GROW-R1, GROW-R2, GROW-R3, GROW-R4, GROW-R5, ROUND-R85)', () => {
  test.each<[string, number | null, string[]]>([
    // First two days, and under 3 weeks: any loss within a day.
    ['0:98 24:98', 1, ['no-gain stop']],
    ['0:98 24:97', 2, ['loss stop']],
    ['0:150', 14, []],
    ['0:150 24:157', 14, []],
    ['0:150 24:156', 14, ['slow-gain']],
    ['0:150 24:150', 14, ['no-gain']],
    ['0:150 12:153', 14, ['slow-gain']],
    ['0:150 12:154', 14, []],
    ['0:150 6:149', 14, ['loss stop']],
    ['0:150 20:156 24:155', 14, ['loss stop']],
    ['0:140 9:132', 6, ['loss stop']],
    ['0:100 24:92', 5, ['loss stop']],
    ['0:100 192:200', 8, []],
    ['0:100 216:199', 9, ['birth-weight-not-doubled']],
    ['0:100 216:200', 9, []],
    // Under 8 weeks.
    ['0:412 24:391', 30, ['loss']],
    ['0:400 24:399', 30, ['loss']],
    ['0:400 24:400', 30, ['no-gain']],
    ['0:400 24:361', 30, ['loss']],
    ['0:400 24:360', 30, ['loss stop']],
    ['0:400 24:380 48:360', 30, ['loss stop']],
    ['0:400 96:360', 30, ['loss stop']],
    ['0:400 80:370 100:378', 30, ['loss']],
    ['0:600 48:560 96:540 144:520 192:500 240:492', 45, ['loss stop']],
    // Under 20 weeks.
    ['0:1000 134:950', 63, ['loss']],
    ['0:1000 134:951', 63, []],
    ['0:1000 80:940 169:945', 63, ['loss']],
    ['0:1000 80:950 160:900', 63, ['loss stop']],
    ['0:1000 24:970 48:941 72:913 96:885 120:859', 60, ['loss stop']],
    ['0:1000 168:1000', 63, ['no-gain']],
    ['0:1000 84:1000 168:995', 63, ['no-gain']],
    ['0:1000 144:990', 63, ['no-gain']],
    ['0:1000 143:990', 63, []],
    ['0:1000 168:1010', 63, []],
    ['0:1000 505:1000', 100, []],
    // Grown: a twentieth in a month asks for a look, a tenth stops, a hundredth is nothing.
    ['0:1000 168:1000', 140, []],
    ['0:1000 134:940', 140, ['loss']],
    ['0:3000 168:2970', 400, []],
    ['0:4500 672:3820', 900, ['loss stop']],
    ['0:4500 192:4095', 900, ['loss']],
    ['0:4000 168:3850 336:3720 504:3590', 400, ['loss stop']],
    ['0:4000 168:3850 336:3720 504:3610', 400, ['loss']],
    ['0:4000 240:3800 480:3700 720:3600', 400, ['loss stop']],
    ['0:4000 240:3800 480:3700 721:3600', 400, ['loss']],
    // Old, or nobody knows: what is lost in three months.
    ['0:4000 721:3790', 4200, ['loss']],
    ['0:902 134:830', null, ['loss']],
    ['0:650 24:650', null, []],
  ])('%s at %s days: %j', (text, ageDays, expected) => {
    expect(codes(text, ageDays)).toEqual(expected);
  });

  test('says what happened, in days where it took days (Verifies: LOG-R173)', () => {
    const told = (text: string, age: number | null) => alarmsAt(curve(text), age).map(({ why }) => why);
    expect(told('0:600 48:560 96:540 144:520 192:500 240:492', 45)).toEqual([
      {
        say: 'growth.loss',
        with: { percent: '18', grave: 'yes', from: { grams: 600 }, to: { grams: 492 }, unit: 'days', time: 10 },
      },
    ]);
    expect(told('0:140 9:132', 6)).toEqual([
      {
        say: 'growth.loss',
        with: { percent: '5.7', grave: 'yes', from: { grams: 140 }, to: { grams: 132 }, unit: 'hours', time: 9 },
      },
    ]);
    expect(told('0:1000 168:1000', 63)).toMatchObject([{ say: 'growth.no-gain', with: { unit: 'days', time: 7 } }]);
  });

  test('order of entry does not matter, doubtful weights do not count', () => {
    const points = curve('0:150 24:157 48:165');
    expect(alarmsAt([...points].reverse(), 14)).toEqual([]);
    const wrong = curve('0:150 24:16 48:165').map((one) => ({ ...one, doubtful: one.grams === 16 }));
    expect(alarmsAt(wrong, 14)).toEqual([]);
    expect(alarmsAt([], 14)).toEqual([]);
  });

  test('a document without limits tells nothing, and one whose ages do not rise is refused (Verifies: GROW-R13)', () => {
    expect(growthAlarms({ weighings: curve('0:1000 24:500'), ageDays: 30, rules: [] })).toEqual([]);
    const [first, second, ...rest] = starterProtocol().weightWatch;
    expect(WeightWatch.safeParse([second, first, ...rest]).success).toBe(false);
    expect(WeightWatch.safeParse([first, second]).success).toBe(false);
    expect(WeightWatch.safeParse([first, second, ...rest]).success).toBe(true);
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
