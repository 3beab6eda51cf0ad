import { describe, expect, it } from 'vitest';
import { overrideReasons, overrideWaits, reasonsWith, staysOpen } from './override-rules.js';

describe('an override beside a chip that is not the animal’s own (Verifies: ROUND-R80)', () => {
  it('offers every reason while nothing contradicts', () => {
    expect(reasonsWith([])).toEqual(overrideReasons);
    expect(overrideWaits('chip-unreadable', [], [])).toBeNull();
  });

  it('offers no reason that denies the scan', () => {
    expect(reasonsWith(['scan-1'])).toEqual(['collar-lost', 'label-unreadable', 'other']);
    expect(overrideWaits('chip-unreadable', ['scan-1'], ['scan-1'])).toBe('round.why.reason');
  });

  it('waits until each scan is said to be of another cat', () => {
    expect(overrideWaits('collar-lost', ['scan-1', 'scan-2'], ['scan-1'])).toBe('round.why.scan-unanswered');
    expect(overrideWaits('collar-lost', ['scan-1'], ['scan-1'])).toBeNull();
  });

  it('closes with a scan that came after it was opened, and not with the one it was opened from', () => {
    expect(staysOpen([], [])).toBe(true);
    expect(staysOpen([], ['scan-1'])).toBe(false);
    expect(staysOpen(['scan-1'], ['scan-1'])).toBe(true);
    expect(staysOpen(['scan-1'], ['scan-1', 'scan-2'])).toBe(false);
    expect(staysOpen(['scan-1'], [])).toBe(true);
  });
});
