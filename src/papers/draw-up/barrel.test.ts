import fc from 'fast-check';
import { expect, it } from 'vitest';
import { starterFormulary } from '../../../test/support/documents.js';
import { barrelOf } from './barrel.js';

const { syringes } = starterFormulary();

it('shows the mark to draw to with its figure in the glass, on every syringe and at every mark', () => {
  const per = { mL: 1000, 'U-100': 10, 'U-40': 25 };
  fc.assert(
    fc.property(fc.constantFrom(...syringes), fc.nat(1000), (syringe, part) => {
      const marks = Math.floor(syringe.capacity_ul / syringe.mark_ul);
      const index = 1 + (part % marks);
      const barrel = barrelOf(syringe, index * syringe.mark_ul);
      const here = barrel.glass[barrel.here];
      expect(here?.at_ul).toBe(index * syringe.mark_ul);
      expect(Number(here?.figure)).toBeCloseTo((index * syringe.mark_ul) / per[syringe.scale], 9);
      expect(barrel.glass.length).toBeLessThanOrEqual(11);
      expect(barrel.marks).toHaveLength(marks + 1);
      expect(barrel.marks.filter(({ figure }) => figure !== '').length).toBeLessThanOrEqual(6);
      expect(barrel.marks.every(({ figure, long }) => figure === '' || long)).toBe(true);
      // No figure is one that a hand cannot find: a float's tail would be.
      const figures = [...barrel.glass, ...barrel.marks].map(({ figure }) => figure);
      expect(figures.filter((figure) => !/^(\d+(\.\d{1,3})?)?$/.test(figure))).toEqual([]);
    }),
  );
});

it('counts insulin barrels in units, and a mL barrel with a leading zero', () => {
  const unit = barrelOf({ capacity_ul: 500, mark_ul: 10, scale: 'U-100' }, 120);
  expect([unit.whole, unit.glass[unit.here]?.figure]).toEqual(['50', '12']);
  const small = barrelOf({ capacity_ul: 1000, mark_ul: 10, scale: 'mL' }, 120);
  expect([small.whole, small.glass[small.here]?.figure]).toEqual(['1', '0.12']);
});
