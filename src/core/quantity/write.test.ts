import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readVolume, unitsToMicrolitres } from './read-volume.js';
import { writeMass, writeNumber, writePercent, writePerKg, writeUnits, writeVolume, writeWeight } from './write.js';

const plainSpaces = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('numbers with their unit (Verifies: DOSE-R3)', () => {
  test.each([
    [writeVolume(75), '0.075 mL'],
    [writeVolume(1000), '1 mL'],
    [writeVolume(500), '0.5 mL'],
    [writeVolume(50), '0.05 mL'],
    [writeVolume(10_000), '10 mL'],
    [writeVolume(0), '0 mL'],
    [writeMass(75), '75 mcg'],
    [writeMass(999), '999 mcg'],
    [writeMass(7500), '7.5 mg'],
    [writeMass(1_500_000), '1,500 mg'],
    [writeUnits('7.5'), '7.5 units'],
    [writeUnits(1), '1 unit'],
    [writeUnits('0.5'), '0.5 units'],
    [writeWeight(650), '650 g'],
    [writeWeight(1234), '1,234 g'],
    [writeWeight(650, 'kg'), '0.65 kg'],
    [writeWeight(680, 'lb'), '1.5 lb'],
    [writeWeight(680, 'lb-oz'), '1 lb 8 oz'],
    [writeWeight(453, 'lb-oz'), '1 lb'],
    [writeWeight(100, 'lb-oz'), '3.5 oz'],
    [writePerKg('11.0231'), '11.02 mg per kg'],
    [writePercent('4.54'), '4.5 percent'],
    [writeNumber('1000000.50'), '1,000,000.5'],
  ])('%s', (written, expected) => {
    expect(plainSpaces(written)).toBe(expected);
    expect(written).not.toContain(' ');
  });

  test('no volume has a naked point, a zero at its end or a power of ten', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000 }), (ul) => {
        const text = writeVolume(ul);
        expect(text).toMatch(/^\d[\d,]*(\.\d*[1-9])?\u00a0mL$/);
        expect(Number(text.replace(/,/g, '').slice(0, -3)) * 1000).toBeCloseTo(ul, 6);
      }),
    );
  });
});

describe('a volume as people type it (Verifies: DOSE-R2, DOSE-R9)', () => {
  test.each<[string, 'mL' | 'U-100' | 'U-40' | null, number | string]>([
    ['0.075', null, 75],
    ['0,075 mL', null, 75],
    ['.5 ml', null, 500],
    ['1 cc', null, 1000],
    ['75 µL', null, 75],
    ['7.5 units', 'U-100', 75],
    ['10 units', 'U-100', 100],
    ['4 units', 'U-40', 100],
    ['10 units', null, 'dose.volume-units-of-what'],
    ['10 units', 'mL', 'dose.volume-units-of-what'],
    ['10U', 'U-100', 'dose.volume-units-short'],
    ['3 drops', null, 'dose.volume-drops'],
    ['2 mg', null, 'dose.volume-unit-unknown'],
    ['0.0755', null, 'dose.volume-too-fine'],
    ['0', null, 'dose.volume-zero'],
    ['500', null, 'dose.volume-too-much'],
    ['1..2', null, 'dose.number-unreadable'],
    ['½', null, 'dose.number-fraction'],
    ['', null, 'dose.number-empty'],
  ])('%j on scale %s: %s', (text, scale, expected) => {
    const reading = readVolume(text, scale);
    expect(reading.is === 'volume' ? reading.ul : reading.why.say).toBe(expected);
  });

  test('a number with two readings is asked about', () => {
    expect(readVolume('1,250')).toMatchObject({ is: 'ask', readings: [1250] });
  });

  test('the wrong insulin scale is two and a half times', () => {
    expect(unitsToMicrolitres(10, 'U-40').div(unitsToMicrolitres(10, 'U-100')).toNumber()).toBe(2.5);
  });
});
