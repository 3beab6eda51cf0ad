import { describe, expect, it, test } from 'vitest';
import { starterFormulary } from '../../../../test/support/documents.js';
import { CalendarDate } from '../../calendar.js';
import { SyringeId } from '../../ids.js';
import { contradictions } from '../before-signing.js';
import { doseOf } from '../dose.js';
import type { DoseQuestion } from '../dose-question.js';
import type { Product } from '../formulary.js';

const starter = starterFormulary();
const now = '2026-03-12T15:00:00Z';
const named = (id: string): Product => {
  const found = starter.products.find((one) => one.id === id);
  if (found === undefined) throw new Error(id);
  return found;
};
const dose = (product: string | Product, grams: number, more: Partial<DoseQuestion> = {}) =>
  doseOf({
    product: typeof product === 'string' ? named(product) : product,
    formulary: starter,
    weighing: { grams, at: '2026-03-12T14:00:00Z', doubtful: false },
    ageDays: { youngest: 70, oldest: 70 },
    today: CalendarDate.parse('2026-03-12'),
    now,
    syringes: starter.syringes.map((one) => one.id),
    ...more,
  });
const codes = (of: ReturnType<typeof dose>) => of.gates.map((one) => `${one.code} ${one.severity}`);

describe('a mark inside the limits of the product is drawn where none lies within its tolerance (Verifies: DOSE-R80)', () => {
  it.each([
    // 0.05 mL is the least for which marks of 0.01 mL are fine enough by the floors of the starter.
    ['pyrantel-50', 200, '0.05 mL', '12.5', '25'],
    ['pyrantel-50', 220, '0.05 mL', '11.3636', '13.64'],
    ['pyrantel-50', 249, '0.05 mL', '10.0402', '0.4'],
    ['pyrantel-50', 168, '0.05 mL', '14.881', '48.81'],
    // Half-way between 0.05 and 0.06 mL: 12.5 mg per kg is the very end of the limits, 15 lies inside them.
    ['amoxicillin-clavulanate-62-5', 250, '0.06 mL', '15', '9.09'],
    ['amoxicillin-clavulanate-62-5', 251, '0.06 mL', '14.9402', '8.66'],
    ['doxycycline-10', 90, '0.05 mL', '5.5556', '11.11'],
  ])('%s on %d g: %s', (product, grams, mark, perKg, percent) => {
    const small = dose(product, grams);
    expect(small.stopped).toBe(false);
    expect(small.drawn?.mark.replaceAll(/\s/g, ' ')).toBe(mark);
    expect(small.drawn?.errorPercent).toBe(percent);
    expect(small.drawnMgPerKg).toBe(perKg);
    const [first] = small.gates;
    expect(first).toMatchObject({
      code: 'mark-in-band',
      severity: 'second-person',
      why: { say: 'dose.gate.mark-in-band' },
    });
  });
  it('says both doses and the limits, and is no longer said to be within the tolerance', () => {
    const small = dose('pyrantel-50', 220);
    const said = JSON.stringify(small.gates[0]?.why.with).replaceAll(/\s/g, ' ');
    expect(said).toContain('11.36 mg per kg');
    expect(said).toContain('10 mg per kg');
    expect(said).toContain('5 mg per kg');
    expect(said).toContain('20 mg per kg');
    expect(small.trace.map(({ what }) => what.say)).toContain('dose.step.mark-in-band');
    expect(small.trace.map(({ what }) => what.say)).not.toContain('dose.step.mark-over');
    // The floor is that of what is drawn.
    expect(codes(small)).toContain('small-volume note');
  });
  it('a mark within the tolerance goes before, and is not said to be one of those', () => {
    expect(dose('pyrantel-50', 250).gates.map(({ code }) => code)).not.toContain('mark-in-band');
  });
  test('one and a half times, or half, is no such dose whatever the limits allow', () => {
    // 0.05 mL on 166 g are 15.06 mg per kg, one and a half times of 10; the limits go to 20.
    expect(codes(dose('pyrantel-50', 166))).toContain('no-syringe stop');
  });
  it('what the floors call too small stays so', () => {
    expect(codes(dose('pyrantel-50', 95))).toContain('small-volume stop');
    expect(codes(dose('pyrantel-50', 95))).not.toContain('mark-in-band second-person');
  });
  it('goes down only where the product says so', () => {
    const down = { ...named('pyrantel-50'), rounding: 'down' as const };
    expect(codes(dose(down, 220))).toContain('no-syringe stop');
  });
  it('stays over the least of the label and under its most, in the units of the label', () => {
    const least = { ...named('amoxicillin-clavulanate-62-5'), band: { low: '5', high: '25' } };
    expect(dose(least, 249).drawn?.volume_ul).toBe(50);
    expect(dose({ ...least, least: { amount: '13', unit: 'mg-per-kg' } }, 249).drawn?.volume_ul).toBe(60);
    expect(dose({ ...least, least: { amount: '0.21', unit: 'mL-per-kg' } }, 249).drawn?.volume_ul).toBe(60);
    expect(dose({ ...least, least: { amount: '5.9', unit: 'mg-per-lb' } }, 249).drawn?.volume_ul).toBe(60);
    const most = { ...least, least: { amount: '13', unit: 'mg-per-kg' as const }, stopAbove_mg_per_kg: '14.9' };
    expect(codes(dose(most, 249))).toContain('no-syringe stop');
  });
  it('only with a syringe for its way in, and none where the formulary does not say so', () => {
    const luer = { syringes: [SyringeId.parse('tuberculin-1'), SyringeId.parse('u100-half-0-3')] };
    expect(codes(dose('pyrantel-50', 220, luer))).toContain('no-syringe stop');
    const silent = { formulary: { ...starter, marksInBand: null } };
    expect(codes(dose('pyrantel-50', 220, silent))).toContain('no-syringe stop');
  });
  it('a syringe of the formulary that measures it within the tolerance is fetched first', () => {
    const coarse = { syringes: [SyringeId.parse('u100-1')] };
    expect(codes(dose('imidacloprid-100', 680, coarse))).toContain('no-syringe stop');
  });
  it('a product without limits keeps its tolerance', () => {
    expect(codes(dose({ ...named('pyrantel-50'), band: null }, 220))).toContain('no-syringe stop');
  });
  it('is not signed where its two ends are no ends', () => {
    const rule = starter.marksInBand;
    if (rule === null) throw new Error('the starter says nothing of it');
    expect(contradictions({ ...starter, marksInBand: { ...rule, under: '0.9' } }).map(({ say }) => say)).toEqual([
      'dose.fault.marks-in-band',
    ]);
  });
});
