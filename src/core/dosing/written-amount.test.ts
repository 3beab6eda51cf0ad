import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../test/support/documents.js';
import type { Dose } from './dose.js';
import { judgeVolume, outsideLimits } from './written-amount.js';

const formulary = starterFormulary();
const named = (id: string) => {
  const found = formulary.products.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no ${id}`);
  return found;
};
/** An order in words: no figure of its own. */
const inWords = (grams: number): Dose => ({
  product: named('saline-0-9').id,
  grams,
  inWords: 'as ordered',
  byOrder: null,
  exact_ul: null,
  exact_ug: null,
  drawn_ug: null,
  unrounded_ul: null,
  mgPerKg: null,
  pieces: null,
  otherStrength: null,
  drawn: null,
  places: 1,
  total_ul: null,
  measuring: null,
  dilution: null,
  dilutionsThatHelp: [],
  drawnMgPerKg: null,
  gates: [],
  stopped: false,
  trace: [],
});
const stops = (id: string, volume_ul: number, dose: Dose): string[] =>
  judgeVolume(volume_ul, named(id), formulary, dose)
    .filter(({ severity }) => severity === 'stop')
    .map(({ why }) => why.say);

/** Limits by the starter formulary: 4.5 to 10 mg per kg of doxycycline; saline 10 mL per kg in a place, three places. */
describe('a volume that is written (Verifies: SHEET-R20)', () => {
  it('of an order in words, ten times too much, stops; the order itself does not', () => {
    expect(stops('doxycycline-10', 7400, inWords(743))).toEqual(['dose.gate.volume-over']);
    expect(stops('doxycycline-10', 740, inWords(743))).toEqual([]);
  });
  it('of fluid stops above what three places take: 575 g are 5.75 mL a place, 17.25 mL in all, by hand', () => {
    expect(stops('saline-0-9', 60_000, inWords(575))).toEqual(['dose.gate.over-places']);
    expect(stops('saline-0-9', 17_251, inWords(575))).toEqual(['dose.gate.over-places']);
    expect(stops('saline-0-9', 17_250, inWords(575))).toEqual([]);
  });
  it('stops against a dose that was worked out, at one and a half times', () => {
    const dose = { ...inWords(800), inWords: null, unrounded_ul: '160', exact_ul: 160 as never };
    expect(stops('pyrantel-50', 240, dose)).toEqual(['dose.gate.given-over']);
    expect(stops('pyrantel-50', 160, dose)).toEqual([]);
  });
  it('stops above the most of the product on any animal', () => {
    const most = { ...named('doxycycline-10'), band: null, stopAbove_mg_per_kg: '50' };
    const gates = judgeVolume(7400, most, formulary, inWords(743));
    expect(gates.map(({ why }) => why.say)).toEqual(['dose.gate.over-most']);
  });
  it('is outside the limits where a stop would stand', () => {
    const weights = { from_g: 575, to_g: 575 };
    expect(outsideLimits(60_000, named('saline-0-9'), formulary, weights, { otherStrength: null, places: null })).toBe(
      true,
    );
    expect(outsideLimits(10_000, named('saline-0-9'), formulary, weights, { otherStrength: null, places: null })).toBe(
      false,
    );
  });
});
