import { describe, expect, it } from 'vitest';
import { say } from './say.js';
import { shown } from './shown.js';

describe('names in sentences (Verifies: LOG-R139)', () => {
  it('turn and hide nothing', () => {
    const reversed = say('flag.name-unseen');
    expect(reversed).not.toBe('');
    const chip = say('flag.chip-shared', {
      chip: '900000000204419',
      animals: { list: ['As\u202epen', 'Ba\u200bsil'] },
    });
    expect(chip).toContain('Chip 900000000204419');
    expect(chip).toContain('Aspen');
    expect(chip).toContain('Basil');
    expect(chip).not.toMatch(/[\u202a-\u202e\u200b]/u);
    expect(say('flag.chip-differs', { chip: '\u2067900\u2069', found: '1' })).toContain('Chip 900 was');
  });

  it('that run from right to left are kept to themselves, all others are as they were', () => {
    expect(shown('حبيب')).toBe('\u2068حبيب\u2069');
    for (const name of ['Aspen', 'D-0117', 'Çiğdem', '小雪', 'two\nlines', 'a\u00a0b']) expect(shown(name)).toBe(name);
  });
});
