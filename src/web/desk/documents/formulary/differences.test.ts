import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FormularyDocument } from '../../../../core/dosing/formulary.js';
import { readDocumentFile } from '../protocol/read-file.js';
import { differencesOf } from './differences.js';

const text = readFileSync(new URL('../../../../../protocols/starter-formulary.json', import.meta.url), 'utf8');
const starter = FormularyDocument.parse(JSON.parse(text));

describe('a formulary as a file', () => {
  it('comes back as it was saved', () => {
    expect(readDocumentFile(`${JSON.stringify(starter, null, 2)}\n`, FormularyDocument)).toEqual({
      ok: true,
      document: starter,
    });
  });

  it('names the place of a field that it does not have, by the product and not by its number', () => {
    const raw = structuredClone(starter) as unknown as { products: Record<string, unknown>[] };
    const [product] = raw.products;
    if (product === undefined) throw new Error('no product');
    product.tolerance = '5';
    const read = readDocumentFile(JSON.stringify(raw), FormularyDocument);
    expect(read).toMatchObject({ ok: false, problems: [{ where: `products › ${product.id} › tolerance` }] });
  });

  it('is compared value by value, with the source that the signed value rests on', () => {
    const changed = FormularyDocument.parse({
      ...starter,
      version: 'another',
      products: starter.products.map((one) => (one.id === 'pyrantel-50' ? { ...one, tolerancePercent: '7' } : one)),
    });
    const product = starter.products.find((one) => one.id === 'pyrantel-50');
    expect(differencesOf(starter, { ...starter, version: 'another' })).toEqual([]);
    expect(differencesOf(starter, changed)).toEqual([
      {
        at: ['products', 'pyrantel-50', 'tolerancePercent'],
        before: product?.tolerancePercent,
        after: '7',
        departsFrom: product?.source,
        restsOn: product?.source,
      },
    ]);
  });
});
