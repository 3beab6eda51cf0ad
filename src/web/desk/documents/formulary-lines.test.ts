import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { FormularyDocument } from '../../../core/dosing/formulary.js';
import { measuringLines, productLines } from './formulary-lines.js';

const starter = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);

/** Objects with a source anywhere inside a value. */
function sourced(value: unknown): number {
  if (Array.isArray(value)) return value.reduce<number>((sum, one) => sum + sourced(one), 0);
  if (typeof value !== 'object' || value === null) return 0;
  const own = 'source' in value && 'standing' in value ? 1 : 0;
  return own + sourced(Object.values(value));
}

test('a veterinarian reads every sourced part of a product before signing', () => {
  expect(starter.products.length).toBeGreaterThan(5);
  for (const product of starter.products) {
    // The product itself is one; its own source stands below it.
    expect([product.id, productLines(product).length]).toEqual([product.id, sourced(product) - 1]);
  }
});

test('and every rule that holds for all products', () => {
  const { products: _products, syringes: _syringes, kits: _kits, ...rest } = starter;
  expect(sourced(rest)).toBeGreaterThan(3);
  expect(measuringLines(starter)).toHaveLength(sourced(rest));
});

test('every line has its words', () => {
  const lines = [...measuringLines(starter), ...starter.products.flatMap(productLines)];
  expect(lines.filter((one) => one.value === '' || /^desk\.|⟨/.test(`${one.value}${one.what}`))).toEqual([]);
});
