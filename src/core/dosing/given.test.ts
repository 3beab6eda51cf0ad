import { describe, expect, test } from 'vitest';
import type { Dose } from './dose.js';
import { compareWithDose } from './given.js';

const dose = { unrounded_ul: '74.957169', exact_ul: 75, drawn: { volume_ul: 75 } } as unknown as Dose;

describe('what was given against the dose (Verifies: DOSE-R17)', () => {
  test.each([
    [75, null],
    [72, null],
    [80, 'second-person'],
    [60, 'second-person'],
    [112, 'second-person'],
    [113, 'stop'],
    [37, 'stop'],
    [500, 'stop'],
    [7, 'stop'],
    [0, 'stop'],
  ])('%i uL: %s', (given, severity) => {
    expect(compareWithDose(given, dose, '5')?.severity ?? null).toBe(severity);
  });
});
