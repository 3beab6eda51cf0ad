import { describe, expect, test } from 'vitest';
import { isCat } from './species.js';

describe('species of a cell (Verifies: IMP-R6)', () => {
  test.each([
    'cat',
    'DSH',
    'D.S.H.',
    'DLH mix',
    'DMH',
    'Domestic Shorthair',
    'domestic short hair',
    'DOMESTIC SH',
    'Siamese/Mix',
    'Maine Coon',
    'British Shorthair',
    'Tortoiseshell',
  ])('%s is a cat', (cell) => {
    expect(isCat(cell)).toBe('cat');
  });
  // Words shared with other animals decide nothing.
  test.each([
    'dog',
    'Burmese python',
    'Siamese fighting fish',
    'German Shorthair Pointer',
    'Chihuahua Shorthair Mix',
    'RABBIT SH',
    'Himalayan',
    'Mix',
    'American',
  ])('%s is not said to be one', (cell) => {
    expect(isCat(cell)).toBe('other');
  });
  test.each(['', '-', 'unknown'])('"%s" is unknown', (cell) => {
    expect(isCat(cell)).toBe('unknown');
  });
});
