import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readVolume } from './read-volume.js';
import { coarseScale, readWeight, type WeightReading } from './read-weight.js';
import type { WeightUnit } from './units.js';
import { fromGrams, grams, inGrams, microlitres } from './units.js';

/** One line: grams, or the readings to choose from, or the key of the sentence. */
function short(reading: WeightReading): string {
  if (reading.is === 'weight') return `${reading.weight.grams} g`;
  if (reading.is === 'ask') return `ask ${reading.readings.map((one) => one.grams).join(' or ')}`;
  return reading.why.say;
}

describe('a weight as people type it (Verifies: DOSE-R1, DOSE-R2)', () => {
  test.each<[string, WeightUnit, string]>([
    ['650', 'g', '650 g'],
    ['650g', 'kg', '650 g'],
    ['650 G', 'kg', '650 g'],
    ['3 kg', 'g', '3000 g'],
    ['0,5', 'kg', '500 g'],
    ['0.5', 'kg', '500 g'],
    ['5,0', 'kg', '5000 g'],
    ['.65', 'kg', '650 g'],
    [' 0.62 kg ', 'g', '620 g'],
    ['0,650', 'kg', '650 g'],
    ['1.234', 'kg', '1234 g'],
    ['1,234', 'kg', 'ask 1234'],
    ['1,234', 'g', 'ask 1234'],
    ['1.234', 'g', 'ask 1234'],
    ['1 234', 'g', 'ask 1234'],
    ['2,500 lb', 'g', 'ask 1134'],
    ['1,234.5', 'g', '1234 g'],
    ['1.234,6', 'g', '1235 g'],
    ["1'234", 'g', '1234 g'],
    ['065', 'kg', 'ask 650'],
    ['650.5', 'g', '650 g'],
    ['650.6', 'g', '651 g'],
    ['1 lb 8 oz', 'g', '680 g'],
    ['1lb8oz', 'kg', '680 g'],
    ['1 lb 8.5 oz', 'kg', '695 g'],
    ['1,5 lb', 'g', '680 g'],
    ['1.8', 'lb', '816 g'],
    ['24 oz', 'g', '680 g'],
    ['2 pounds', 'g', '907 g'],
    ['', 'g', 'dose.weight-empty'],
    ['   ', 'g', 'dose.weight-empty'],
    ['kg', 'g', 'dose.weight-unreadable'],
    ['1..2', 'kg', 'dose.number-unreadable'],
    ['1½', 'kg', 'dose.number-fraction'],
    ['1 1/2 lb', 'kg', 'dose.number-fraction'],
    ['650.', 'g', 'dose.number-unfinished'],
    ['-650', 'g', 'dose.number-negative'],
    ['6.5e2', 'g', 'dose.number-power'],
    ['65O', 'g', 'dose.weight-unit-unknown'],
    ['650 gr', 'g', 'dose.weight-unit-unknown'],
    ['three', 'kg', 'dose.weight-unreadable'],
    ['1 lb 18 oz', 'g', 'dose.weight-pounds-ounces'],
    ['1 lb 8', 'g', 'dose.number-unreadable'],
    ['1 kg 200 g', 'g', 'dose.weight-unreadable'],
    ['0', 'kg', 'dose.weight-zero'],
    ['0.000', 'kg', 'dose.weight-zero'],
    ['1.2', 'g', 'dose.weight-too-light'],
    ['655', 'kg', 'dose.weight-too-heavy-grams'],
    ['65', 'kg', 'dose.weight-too-heavy-grams'],
    ['450000', 'g', 'dose.weight-too-heavy'],
    ['12,345,678', 'g', 'dose.weight-too-heavy'],
    ['1,23,456', 'g', 'dose.number-unreadable'],
  ])('%j in a field of %s: %s', (text, unit, expected) => {
    expect(short(readWeight(text, unit))).toBe(expected);
  });

  test('keeps what was typed, says it back, and knows the step of the scale', () => {
    const reading = readWeight('1 lb 8 oz', 'g');
    expect(reading).toMatchObject({
      is: 'weight',
      weight: { exact_g: '680.388555', step_g: '28.3495', entered: '1 lb 8 oz', echo: { say: 'dose.weight-echo' } },
    });
  });

  test('names both readings of a sign that may part thousands, also the one that no cat weighs', () => {
    for (const [text, one, other] of [
      ['1,010', '1.01', '1010'],
      ['1.234', '1.234', '1234'],
      ['1 010', '1010', '1.01'],
    ] as const) {
      const reading = readWeight(text, 'g');
      expect(reading).toMatchObject({ is: 'ask', why: { say: 'dose.weight-two-readings' }, readings: [{}] });
      if (reading.is !== 'ask') continue;
      expect(reading.why.with).toEqual({ entered: text, one: `${one}\u00a0g`, other: `${other}\u00a0g` });
    }
  });

  test('never takes part of what was typed', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.constantFrom('g', 'kg', 'lb', 'oz'), (text, unit) => {
        const reading = readWeight(text, unit as WeightUnit);
        if (reading.is !== 'weight') return;
        const digits = text.replace(/\D/g, '');
        expect(digits).not.toBe('');
        expect(reading.weight.entered).toBe(text);
      }),
    );
  });

  test('whole grams come back in every unit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 21, max: 19_999 }), fc.constantFrom('g', 'kg', 'lb', 'oz'), (weight, unit) => {
        expect(short(readWeight(`${fromGrams(weight, unit as WeightUnit).toFixed(9)} ${unit}`, 'g'))).toMatch(
          new RegExp(`^(${weight} g|ask)`),
        );
      }),
    );
  });
});

describe('the step of a scale (Verifies: DOSE-R18)', () => {
  const at = (text: string) => {
    const reading = readWeight(text, 'g');
    return reading.is === 'weight' ? coarseScale(reading.weight)?.say : undefined;
  };
  test('is pointed out under 1 kg only', () => {
    expect(at('0.6 lb')).toBe('dose.weight-coarse');
    expect(at('9 oz')).toBe('dose.weight-coarse');
    expect(at('250 g')).toBeUndefined();
    expect(at('0.25 kg')).toBe('dose.weight-coarse');
    expect(at('2.3 kg')).toBeUndefined();
  });
});

test('no row of figures breaks it, however long: a chip scanned behind a half-typed weight is refused in words', () => {
  expect(short(readWeight('72900000000204200', 'g'))).toMatch(/dose.weight-too-heavy/);
  const figures = fc.stringMatching(/^[0-9.,]{1,40}$/);
  fc.assert(
    fc.property(
      figures,
      fc.constantFrom('', ' g', ' kg', ' lb', ' oz'),
      fc.constantFrom('g', 'kg', 'lb'),
      (text, unit, field) => {
        expect(['weight', 'ask', 'no']).toContain(readWeight(text + unit, field as WeightUnit).is);
      },
    ),
  );
  fc.assert(
    fc.property(figures, fc.constantFrom('', ' mL', ' units', ' ul'), (text, unit) => {
      expect(['volume', 'ask', 'no']).toContain(readVolume(text + unit, 'U-100').is);
    }),
  );
});

test('quantities are whole and not negative', () => {
  expect(() => grams(1.5)).toThrow(RangeError);
  expect(() => microlitres(-1)).toThrow(RangeError);
  expect(inGrams(1, 'lb').toFixed()).toBe('453.59237');
});
