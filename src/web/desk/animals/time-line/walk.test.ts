import { expect, test } from 'vitest';
import { moveOf } from './walk.js';

const lanes = [[{ day: 1 }, { day: 5 }, { day: 20 }], [], [{ day: 2 }, { day: 18 }]];

test('left and right walk in time and stop at the ends', () => {
  expect(moveOf('ArrowRight', { lane: 0, stop: 0 }, lanes)).toEqual({ lane: 0, stop: 1 });
  expect(moveOf('ArrowRight', { lane: 0, stop: 2 }, lanes)).toBeNull();
  expect(moveOf('ArrowLeft', { lane: 0, stop: 0 }, lanes)).toBeNull();
  expect(moveOf('End', { lane: 0, stop: 0 }, lanes)).toEqual({ lane: 0, stop: 2 });
});

test('up and down go to the nearest day of the next lane that has any', () => {
  expect(moveOf('ArrowDown', { lane: 0, stop: 2 }, lanes)).toEqual({ lane: 2, stop: 1 });
  expect(moveOf('ArrowUp', { lane: 2, stop: 0 }, lanes)).toEqual({ lane: 0, stop: 0 });
  expect(moveOf('ArrowUp', { lane: 0, stop: 0 }, lanes)).toBeNull();
});

test('other keys are left alone', () => {
  expect(moveOf('Tab', { lane: 0, stop: 0 }, lanes)).toBeUndefined();
});
