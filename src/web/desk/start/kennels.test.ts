import { expect, test } from 'vitest';
import { readKennels } from './kennels.js';

test('ranges are written out, everything else stays as typed', () => {
  expect(readKennels('1-4, 8; A1')).toEqual(['1', '2', '3', '4', '8', 'A1']);
  expect(readKennels('B2-B4')).toEqual(['B2', 'B3', 'B4']);
  expect(readKennels('01-03')).toEqual(['01', '02', '03']);
  expect(readKennels('tower left, tower left')).toEqual(['tower left']);
});

test('a range backwards or beyond reason is kept as a name, not written out', () => {
  expect(readKennels('9-2')).toEqual(['9-2']);
  expect(readKennels('1-900')).toEqual(['1-900']);
  expect(readKennels(' ')).toEqual([]);
});
