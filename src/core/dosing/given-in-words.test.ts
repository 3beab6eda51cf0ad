import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../test/support/documents.js';
import { perKgOfVolume, volumeAgainstLimits } from './given.js';

const doxycycline = starterFormulary().products.find((one) => one.id === 'doxycycline-10');
if (doxycycline === undefined) throw new Error('no doxycycline');
const cat = { grams: 743, otherStrength: null };

/** Limits of 4.5 to 10 mg per kg: protocols/starter-formulary.json, doxycycline 10 mg per mL. */
describe('a volume typed for an order in words (Verifies: DOSE-R41)', () => {
  it('is said back in mg and mg per kg, by hand: 740 microlitres are 7.4 mg, 9.9596 mg per kg of 743 g', () => {
    expect(perKgOfVolume(740, doxycycline, cat)).toEqual({ ug: 7400, mgPerKg: '9.9596' });
    expect(perKgOfVolume(740, doxycycline, { ...cat, grams: null })).toEqual({ ug: 7400, mgPerKg: null });
  });
  it('outside the product’s own limits is pointed at; inside, or without a weight, nothing is said', () => {
    expect(volumeAgainstLimits(740, doxycycline, cat)).toBeNull();
    expect(volumeAgainstLimits(7400, doxycycline, cat)?.why.say).toBe('dose.gate.volume-over');
    expect(volumeAgainstLimits(74, doxycycline, cat)?.why.say).toBe('dose.gate.volume-under');
    expect(volumeAgainstLimits(7400, doxycycline, { ...cat, grams: null })).toBeNull();
    expect(volumeAgainstLimits(370, doxycycline, { ...cat, otherStrength: '100' })?.why.say).toBe(
      'dose.gate.volume-over',
    );
  });
});
