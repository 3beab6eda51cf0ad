import { describe, expect, it } from 'vitest';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { atMost } from '../../../core/route-plan/model/budget.js';
import { Instance, type Step } from '../../../core/route-plan/model/instance.js';
import { planSection } from '../../../core/route-plan/search/search.js';
import { partsOfPlan } from './ribbon-data.js';

const handling = (animal: string, start: number, duration: number, fetchFrom?: number): Step => ({
  ...{ is: 'handling' as const, litter: 'L1', animal, kind: 'oral', op: 0, start, duration },
  ...(fetchFrom === undefined ? {} : { fetchFrom }),
});
const drawn = (steps: readonly Step[], inside_s = 120) =>
  partsOfPlan({
    steps,
    inside_s,
    unitSeconds: 30,
    windowOf: () => ({ opens_s: 480, closes_s: 600 }),
    nameOf: (id) => id.toUpperCase(),
  });

describe('the way of the holder on the ribbon (Verifies: RIBBON-R16)', () => {
  it('goes from where the holder sets out to where the treater takes over', () => {
    const { ways, blocks } = drawn([handling('a', 4, 3, 0), handling('a', 7, 2), handling('b', 13, 4, 9)]);
    expect(ways).toEqual([
      { animal: 'a', name: 'A', from_s: 120, to_s: 240, row: 0 },
      { animal: 'b', name: 'B', from_s: 390, to_s: 510, row: 0 },
    ]);
    expect(blocks.map(({ name, from_s, to_s }) => [name, from_s, to_s])).toEqual([
      ['A', 240, 390],
      ['B', 510, 630],
    ]);
  });

  it('is drawn also when nothing lies between, and begins a new block when the animal was put back', () => {
    const { ways, blocks } = drawn([handling('a', 2, 3, 0), handling('a', 7, 2, 5)], 0);
    expect(ways.map(({ from_s, to_s }) => [from_s, to_s])).toEqual([
      [0, 60],
      [150, 210],
    ]);
    expect(blocks.map(({ from_s, to_s }) => [from_s, to_s])).toEqual([
      [60, 150],
      [210, 270],
    ]);
  });

  it('lies in a row of its own where two holders are on the way at once', () => {
    const { ways } = drawn([handling('a', 4, 3, 0), handling('b', 7, 2, 2), handling('c', 9, 2, 4)]);
    expect(ways.map(({ name, row }) => [name, row])).toEqual([
      ['A', 0],
      ['B', 1],
      ['C', 0],
    ]);
  });

  it('is none where treater and holder are planned as one, and one for each animal where they are not', () => {
    const text = 'Ada:draw5,chip3 Bo:oral2,topical1 | Cleo:draw4,oral1 Dot:chip2 Eve:oral3';
    const planned = (holders?: 1 | 2) => {
      const section = sectionOf(text);
      const own = holders === undefined ? section : Instance.parse({ ...section, holders });
      return drawn(planSection(own, { rho: 1, keepGoing: atMost(50) })?.steps ?? []);
    };
    expect(planned().blocks.length).toBeGreaterThanOrEqual(5);
    expect(planned().ways).toEqual([]);
    for (const holders of [1, 2] as const) {
      const { ways, blocks } = planned(holders);
      expect(new Set(ways.map(({ animal }) => animal)).size).toBe(5);
      // Each ends where its animal comes into the treater's hands; one holder is never on two ways.
      for (const way of ways) {
        expect(blocks.filter((one) => one.animal === way.animal).map((one) => one.from_s)).toContain(way.to_s);
        expect(way.row).toBeLessThan(holders);
      }
    }
  });
});
