import { describe, expect, it } from 'vitest';
import { everyState } from '../../../test/support/every-state.js';
import { countsOf } from '../views/round/round.js';
import { standCounts, standOf } from './stand.js';

describe('how the animals of a round stand (Verifies: ROUND-R90)', () => {
  it('only what was done with a valid, settled outcome is done; everything else has a word of its own', () => {
    const { stop } = everyState();
    const words = Array.from({ length: 10 }, (_, index) => standOf(stop(`kit-${index + 1}`)));
    expect(words).toEqual([
      'done',
      'reactive',
      'repeat',
      'running',
      'two-numbers',
      'stopped',
      'look',
      'not-done',
      'open',
      'repeat',
    ]);
  });

  it('each animal is counted once, and the totals of the lines do not call done what is to be looked at', () => {
    const { view } = everyState();
    const stops = view.stops.flatMap(({ animals }) => animals);
    const counts = standCounts(stops);
    expect(Object.values(counts).reduce((sum, one) => sum + one, 0)).toBe(stops.length);
    expect(counts.done).toBe(1);
    // Every line stands once in one of the four: done, not done, open, or to be looked at.
    expect(view.counts).toEqual({ done: 1, notDone: 1, open: 3, abnormal: 5 });
    const lines = stops.flatMap((stop) => stop.lines);
    const ill = stops.filter((stop) => stop.unwell && !stop.lines.some(({ abnormal }) => abnormal));
    expect(Object.values(view.counts).reduce((sum, one) => sum + one, 0)).toBe(lines.length + ill.length);
    expect(countsOf(stops)).toEqual(view.counts);
  });
});
