import { describe, expect, it } from 'vitest';
import { at } from '../../../test/support/log.js';
import { batchesOut } from './kits-out.js';

const today = (time: string): string => at('2026-03-12', time);
const box = (...out: readonly [time: string, count: number][]) => ({
  outOfCold: out.map(([time, count]) => ({ at: today(time), count })),
});
const leftOf = (lot: ReturnType<typeof box>, starts: readonly string[], now: string) =>
  batchesOut(lot, starts.map(today), today(now)).map(({ at: out, left }) => [out.slice(11, 16), left]);

describe('tests of a box that are out of the cold', () => {
  it('are used oldest first, whatever the order of the records', () => {
    expect(leftOf(box(['10:30', 2], ['09:00', 2]), ['11:00'], '12:00')).toEqual([
      ['09:00', 1],
      ['10:30', 2],
    ]);
    expect(leftOf(box(['09:00', 1], ['10:30', 2]), ['11:00', '11:10'], '12:00')).toEqual([['10:30', 1]]);
  });

  it('are not used by a test that was started before they were out', () => {
    expect(leftOf(box(['09:00', 1], ['10:30', 2]), ['09:30', '09:40'], '12:00')).toEqual([['10:30', 2]]);
  });

  it('are those of this shift', () => {
    expect(leftOf(box(['08:00', 2]), [], '19:59')).toEqual([['08:00', 2]]);
    expect(leftOf(box(['08:00', 2]), [], '20:00')).toEqual([]);
  });
});
