import { expect, test } from 'vitest';
import { isNewer } from './newer.js';

const program = {} as ServiceWorker;

test.each([
  ['waits beside the one in use', { active: program, waiting: program }, true],
  ['is the first on this device and waits alone', { active: null, waiting: program }, false],
  ['has begun by now', { active: program, waiting: null }, false],
  ['is nowhere', undefined, false],
])('a program that %s', (_, registration, newer) => {
  expect(isNewer(registration)).toBe(newer);
});
