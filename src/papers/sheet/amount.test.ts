import { expect, it } from 'vitest';
import { starterFormulary } from '../../../test/support/documents.js';
import { at, day } from '../../../test/support/log.js';
import { doseOf } from '../../core/dosing/dose.js';
import { amountText, limitText, productText, whereText } from './amount.js';

const formulary = starterFormulary();

/** A line of the sheet for a cat of 575 g, three months old. */
function line(id: string, inWords: string | null = null, name = '') {
  const found = formulary.products.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no ${id}`);
  const product = name === '' ? found : { ...found, name };
  const weighing = { grams: 575, at: at('2026-05-14', '08:00'), on: day('2026-05-14'), doubtful: false, record: 'w' };
  const dose = doseOf({
    product,
    formulary,
    weighing: weighing as never,
    ageDays: { youngest: 90, oldest: 90 },
    today: day('2026-05-14'),
    now: at('2026-05-14', '10:00'),
    syringes: formulary.syringes.map((one) => one.id),
    ordered: inWords === null ? null : { is: 'words', words: inWords },
  } as never);
  return { product, dose };
}

/** Names, strengths and sites of the starter formulary; saline 10 mL per kg in one place. */
it('names product, strength, place and the limit of one place (Verifies: SHEET-R26)', () => {
  const wormer = line('pyrantel-50');
  expect(amountText(wormer)).toMatch(/mL/);
  expect(productText(wormer)).toBe('pyrantel suspension 50 mg per mL (base)');
  expect(productText(line('pyrantel-50', null, 'pyrantel suspension')).replace(/\s/g, ' ')).toBe(
    'pyrantel suspension · 50 mg per mL',
  );
  expect(whereText(wormer)).toBe('');
  expect(limitText(wormer)).toBe('');
  expect(whereText(line('core-vaccine-live-1ml'))).toBe('under the skin, right foreleg below the elbow');
  const fluid = line('saline-0-9', '60 mL under the skin');
  expect(amountText(fluid)).toContain('60 mL under the skin');
  expect(limitText(fluid).replace(/\s/g, ' ')).toContain('at most 5.75 mL in one place, in 3 places a day');
});
