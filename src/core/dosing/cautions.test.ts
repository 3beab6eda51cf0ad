import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { starterFormulary } from '../../../test/support/shelter-log.js';
import { cautionsFor } from './cautions.js';
import type { Product } from './formulary.js';

const productNamed = (id: string): Product => {
  const found = starterFormulary.products.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no ${id}`);
  return found;
};
const flea = productNamed('imidacloprid-100');
const today = day('2026-05-14');
const animal = (youngest: number, grams: number | null, oldest = youngest) => ({
  ageDays: { youngest, oldest },
  grams,
  today,
});
const saidOf = (product: Product, of: ReturnType<typeof animal>): string => {
  const { hand, other } = cautionsFor(product, of);
  return [...hand, ...other].join(' ');
};
const unweaned = /under 8 weeks/;
const tube = /Never a whole tube/;

describe('cautions that are for this animal (Verifies: DOSE-R50)', () => {
  it('an adult of 3.4 kg is told nothing about kittens', () => {
    const told = saidOf(flea, animal(730, 3400));
    expect(told).not.toMatch(unweaned);
    expect(told).not.toMatch(tube);
    expect(told).toMatch(/Keep from being licked/);
  });

  // The label's 8 weeks are 56 days; of an unsure age the youngest counts.
  it.each([
    [55, 55, true],
    [56, 56, false],
    [50, 60, true],
  ])('the label’s age is said at %i to %i days: %s', (youngest, oldest, is) => {
    expect(unweaned.test(saidOf(flea, animal(youngest, 700, oldest)))).toBe(is);
  });

  // 0.4 mL of 100 mg per mL are 40 mg: above 20 mg per kg, the most of the band, for every animal under 2 kg.
  it.each([
    [454, true],
    [1999, true],
    [2000, false],
    [null, true],
  ])('the whole tube is named for an animal of %s g: %s', (grams, is) => {
    expect(tube.test(saidOf(flea, animal(730, grams)))).toBe(is);
  });

  it('under 1 kg is under 1 kg', () => {
    const whole = productNamed('imidacloprid-tube-0-4');
    expect(saidOf(whole, animal(730, 999))).toMatch(tube);
    expect(saidOf(whole, animal(730, 1000))).not.toMatch(tube);
  });

  it('what changes what the hand does comes first', () => {
    expect(cautionsFor(flea, animal(730, 3400)).hand).toEqual(['Take the needle off before it touches the animal.']);
    const vaccine = cautionsFor(productNamed('core-vaccine-live-1ml'), animal(60, 900));
    expect(vaccine.hand).toEqual(['Never between the shoulders, on the upper leg or the hip.']);
    expect(vaccine.other.join()).toMatch(/Watch the animal/);
  });
});
