import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { markText } from '../dosing/draw-up.js';
import { exactly } from './exact.js';
import { readVolume } from './read-volume.js';
import { readWeight } from './read-weight.js';
import { writeNumber, writeVolume, writeWeight } from './write.js';

/** Display, read, display again, in the one language there is; other decimal signs are read as well. */
describe('what is displayed is read back as the same value (Verifies: DOSE-R38)', () => {
  it('volumes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), (ul) => {
        const shown = writeVolume(ul);
        const reading = readVolume(shown);
        expect(reading).toMatchObject({ is: 'volume', ul });
        expect(writeVolume(reading.is === 'volume' ? reading.ul : 0)).toBe(shown);
        // A decimal comma is read the same, or asked about where it could part thousands.
        const comma = readVolume(shown.replace('.', ','));
        if (comma.is === 'ask') expect(comma.readings).toContain(ul);
        else expect(comma).toMatchObject({ is: 'volume', ul });
      }),
      { numRuns: 3_000, examples: [[1], [75], [1_234], [100_000]] },
    );
  });

  it('marks of insulin scales', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.constantFrom('U-100' as const, 'U-40' as const),
        (marks, scale) => {
          const ul = marks * (scale === 'U-100' ? 5 : 25);
          const shown = markText(ul, scale);
          expect(readVolume(shown, scale)).toMatchObject({ is: 'volume', ul });
        },
      ),
    );
  });

  it('weights in grams and kilograms', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 20_000 }),
        fc.constantFrom('g' as const, 'kg' as const),
        (grams, style) => {
          const shown = writeWeight(grams, style);
          const reading = readWeight(shown, 'g');
          if (reading.is === 'ask') {
            expect(reading.readings.map((one) => one.grams)).toContain(grams);
            return;
          }
          expect(reading).toMatchObject({ is: 'weight', weight: { grams } });
          expect(writeWeight(reading.is === 'weight' ? reading.weight.grams : 0, style)).toBe(shown);
        },
      ),
      {
        numRuns: 3_000,
        examples: [
          [1_234, 'g'],
          [1_234, 'kg'],
          [650, 'kg'],
        ],
      },
    );
  });

  it('numbers of any size we write', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000_000 }), fc.integer({ min: 0, max: 6 }), (digits, places) => {
        const value = exactly(digits).div(exactly(10).pow(places));
        const shown = writeNumber(value);
        expect(exactly(shown.replaceAll(',', '')).eq(value)).toBe(true);
        expect(writeNumber(shown.replaceAll(',', ''))).toBe(shown);
      }),
      { numRuns: 3_000 },
    );
  });
});
