import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { afterDose_ms, isResting, onRest, rest } from './rest.js';

beforeEach(() => vi.useFakeTimers({ toFake: ['performance', 'setTimeout'] }));
afterEach(() => {
  vi.advanceTimersByTime(100_000);
  vi.useRealTimers();
});

it('after a dose the page takes no press for two seconds (Verifies: ROUND-R120), and the rest of the act itself does not cut that short', () => {
  rest(afterDose_ms);
  rest();
  vi.advanceTimersByTime(1_300);
  expect(isResting()).toBe(true);
  vi.advanceTimersByTime(800);
  expect(isResting()).toBe(false);
});

it('whoever is told of the end finds it over', () => {
  const seen: boolean[] = [];
  const stop = onRest(() => seen.push(isResting()));
  rest(60_000);
  vi.advanceTimersByTime(60_100);
  stop();
  expect(seen).toEqual([true, false]);
});
