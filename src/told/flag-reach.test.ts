import { describe, expect, it } from 'vitest';
import { sayFlagged, sayWillBeFlagged } from './flag-reach.js';

const roles = ['supervisor', 'medical'] as const;
const sent = { unsent: 0, turnedAway: 0 };

describe('who hears of what was recorded (Verifies: ROUND-R106)', () => {
  it.each([
    ['something is not sent', { ...sent, unsent: 1 }],
    ['the server turned something away', { ...sent, turnedAway: 1 }],
  ])('is nobody yet while %s', (_, status) => {
    expect(sayFlagged(roles, status)).toBe(
      'A flag for supervisor and medical team is on the desk as soon as this device is in reach.',
    );
  });
  it('has a flag on the desk once all is sent', () => {
    expect(sayFlagged(roles, sent)).toBe('A flag for supervisor and medical team is on the desk.');
  });
  it('is promised no more beforehand', () => {
    expect(sayWillBeFlagged(roles)).toBe(
      'Recorded, this is a flag for supervisor and medical team: on the desk as soon as this device is in reach.',
    );
  });
});
