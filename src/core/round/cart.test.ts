import { describe, expect, it } from 'vitest';
import type { KitType, Product, Syringe } from '../dosing/formulary.js';
import type { KitTypeId, ProductId, SyringeId } from '../ids.js';
import { type CartSection, cartFor } from './cart.js';

const product = { id: 'pyrantel-50', name: 'pyrantel' } as unknown as Product;
const syringe = { id: 'oral-1ml', name: '1 mL oral syringe' } as unknown as Syringe;
const kit = { id: 'felv-antigen-a', name: 'FeLV antigen test' } as unknown as KitType;
const formulary = { products: [product], syringes: [syringe], kits: [kit] };
const room = (name: string, wear: string[], leave: string[], groups: number, minutes: number): CartSection => ({
  id: name,
  name,
  wear,
  leave,
  groups,
  contactMinutes: minutes,
});
const dose = (volume_ul: number | null) => ({
  is: 'dose' as const,
  product: 'pyrantel-50' as ProductId,
  syringe: 'oral-1ml' as SyringeId,
  volume_ul,
});
const test = { is: 'test' as const, kitType: 'felv-antigen-a' as KitTypeId };

describe('the cart', () => {
  it('adds up doses, volumes and syringes (Verifies: CART-R1)', () => {
    const cart = cartFor([dose(70), dose(120)], [], formulary, 2);
    expect(cart.products).toEqual([{ product, doses: 2, inWords: 0, volume_ul: 190 }]);
    expect(cart.syringes).toEqual([{ syringe, count: 2 }]);
    expect(cart.sharpsBox).toBe(true);
  });

  it('says that a volume is not known rather than leaving a dose out of the sum', () => {
    expect(cartFor([dose(70), dose(null)], [], formulary, 2).products[0]?.volume_ul).toBeNull();
  });

  it('takes one ready-prepared syringe and one chip more than needed (Verifies: CART-R2)', () => {
    const cart = cartFor([test, test, { is: 'chip' }], [], formulary, 2);
    expect(cart.kits[0]).toMatchObject({ tests: 2, readySyringes: 3 });
    expect(cart.chips).toBe(2);
    // Two tests of one animal are one draw.
    const shared = cartFor([test, { ...test, sameDraw: true }], [], formulary, 2);
    expect(shared.kits[0]).toMatchObject({ tests: 2, draws: 1, readySyringes: 2 });
    expect(cartFor([dose(70)], [], formulary, 2).chips).toBe(0);
  });

  it('counts things to wear for both people, gloves fresh for each litter, and the longest wet time', () => {
    const sections = [
      room('kittens', [], ['wipe the table'], 3, 5),
      room('quarantine', ['gown', 'boots'], ['wipe the table', 'wash hands'], 2, 10),
    ];
    const cart = cartFor([], sections, formulary, 2);
    expect(cart.wear).toEqual([
      { section: 'quarantine', item: 'gown', count: 2 },
      { section: 'quarantine', item: 'boots', count: 2 },
    ]);
    expect(cart.glovePairs).toBe(10);
    expect(cart.cleaning).toEqual(['wipe the table', 'wash hands']);
    expect(cart.contactMinutes).toBe(10);
    expect(cart.sharpsBox).toBe(false);
  });
});
