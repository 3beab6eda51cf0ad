import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shortName } from './frame.js';
import { inRows, partsOfPlan } from './ribbon-data.js';
import { marksFor, stripsFor } from './strips.js';

const step = (
  is: 'gloves' | 'handling' | 'start-test' | 'reading',
  animal: string | null,
  start: number,
  duration: number,
) => ({
  is,
  litter: 'L1',
  animal,
  kind: is,
  op: is === 'handling' ? 0 : null,
  start,
  duration,
});

describe('what the ribbon shows of a plan (Verifies: RIBBON-R12)', () => {
  it('is a block for each time in hand and a thread from the end of the start to the end of the window', () => {
    const { blocks, threads, gloves, end_s } = partsOfPlan({
      steps: [
        step('gloves', null, 0, 2),
        step('handling', 'a', 2, 5),
        step('handling', 'a', 7, 2),
        step('start-test', 'a', 9, 2),
        step('handling', 'b', 11, 4),
        step('reading', 'a', 27, 2),
      ],
      inside_s: 120,
      unitSeconds: 30,
      windowOf: () => ({ opens_s: 480, closes_s: 600 }),
      nameOf: (id) => id.toUpperCase(),
    });
    expect(gloves).toEqual([{ from_s: 120, to_s: 180 }]);
    expect(blocks.map(({ name, from_s, to_s }) => [name, from_s, to_s])).toEqual([
      ['A', 180, 390],
      ['B', 450, 570],
    ]);
    expect(threads).toMatchObject([{ from_s: 450, opens_s: 930, closes_s: 1050, readAt_s: 930, row: 0 }]);
    expect(end_s).toBe(990);
  });

  it('never lays two threads over each other', () => {
    const thread = fc.tuple(fc.nat(4000), fc.integer({ min: 1, max: 900 })).map(([from_s, long]) => ({
      animal: 'a',
      name: 'A',
      from_s,
      opens_s: from_s + long / 2,
      closes_s: from_s + long,
      readAt_s: null,
      state: 'ahead' as const,
    }));
    fc.assert(
      fc.property(fc.array(thread, { maxLength: 30 }), (threads) => {
        const rows = inRows(threads);
        for (const [i, one] of rows.entries()) {
          for (const other of rows.slice(i + 1))
            expect(one.row === other.row && other.from_s < one.closes_s && one.from_s < other.closes_s).toBe(false);
        }
      }),
    );
  });

  it('is cut so that nothing is wider than the page and no minute is lost', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 600 }), fc.integer({ min: 300, max: 2400 }), (minutes, width) => {
        const { perMinute, strips } = stripsFor(0, minutes * 60, width);
        expect(strips[0]?.from_s).toBe(0);
        expect(strips.at(-1)?.to_s).toBeGreaterThanOrEqual(minutes * 60);
        for (const [i, strip] of strips.entries()) {
          expect(((strip.to_s - strip.from_s) / 60) * perMinute).toBeLessThanOrEqual(width + 0.01);
          expect(strip.from_s).toBe(strips[i - 1]?.to_s ?? 0);
        }
      }),
    );
  });

  it('writes whole quarters of an hour on its scale, and names only where three letters fit', () => {
    const noon = Date.UTC(2026, 4, 14, 12, 7);
    expect(marksFor(noon, 0, 3600, 10).map((at_s) => new Date(noon + at_s * 1000).getUTCMinutes())).toEqual([
      15, 30, 45, 0,
    ]);
    expect(shortName('Brambling', 40, 8)).toBe('Bramb');
    expect(shortName('Brambling', 20, 8)).toBe('');
    expect(shortName('Bo', 20, 8)).toBe('Bo');
  });
});
