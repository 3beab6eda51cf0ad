import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CalendarDate } from '../calendar.js';
import { type Dose, doseOf } from './dose.js';
import { FormularyDocument, Product, type Syringe } from './formulary.js';

const starter = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const now = '2026-03-12T15:00:00Z';
const product = (id: string): Product => {
  const found = starter.products.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no product ${id}`);
  return found;
};
/** The dose of a grown animal, so that only amounts and marks matter. */
const dose = (drug: Product, formulary: FormularyDocument, grams: number): Dose =>
  doseOf({
    product: drug,
    formulary,
    weighing: { grams, at: now, doubtful: false },
    ageDays: { youngest: 210, oldest: 210 },
    today: CalendarDate.parse('2026-03-12'),
    now,
    syringes: formulary.syringes.map((one) => one.id),
  });

/** Another way to the same mark: fractions of whole numbers, compared by cross-multiplication. */
function markByFractions(
  rule: { num: bigint; den: bigint },
  grams: number,
  syringes: readonly Syringe[],
  options: { down: boolean; tolerance: bigint; ceiling: { num: bigint; den: bigint } | null },
): { syringe: string; ul: bigint } | null {
  // Exact microlitres = num / den.
  const num = rule.num * BigInt(grams);
  const den = rule.den;
  const ordered = [...syringes].sort((a, b) => a.capacity_ul - b.capacity_ul || a.mark_ul - b.mark_ul);
  for (const syringe of ordered) {
    const mark = BigInt(syringe.mark_ul);
    let steps = num / (den * mark);
    const rest = num - steps * den * mark;
    if (!options.down && rest * 2n > den * mark) steps += 1n;
    if (options.ceiling !== null && steps * mark * options.ceiling.den > options.ceiling.num) {
      steps = options.ceiling.num / (options.ceiling.den * mark);
    }
    const ul = steps * mark;
    if (ul === 0n || ul > BigInt(syringe.capacity_ul)) continue;
    const off = ul * den > num ? ul * den - num : num - ul * den;
    if (off * 100n <= options.tolerance * num) return { syringe: syringe.id, ul };
  }
  return null;
}

describe('rounding happens once (Verifies: DOSE-R4, DOSE-R7, DOSE-R8)', () => {
  const marks = fc.constantFrom(1, 2, 5, 10, 20, 25, 50, 100, 200);
  const syringe = fc.record({ capacity: fc.constantFrom(100, 300, 500, 1000, 3000, 5000), mark: marks });
  const formularyWith = (list: readonly { capacity: number; mark: number }[]): FormularyDocument => ({
    ...starter,
    volumeFloors: [{ below_ul: 1, severity: 'note', maxMark_ul: null }],
    marksInBand: null,
    syringes: list.map((one, index) => ({
      ...(starter.syringes[0] as Syringe),
      id: `s-${index}` as Syringe['id'],
      capacity_ul: one.capacity,
      mark_ul: one.mark,
      scale: 'mL',
      routes: ['by mouth', 'on the skin'],
    })),
  });

  test('mg per kg over a strength, against fractions of whole numbers', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 50, max: 8000 }),
        fc.integer({ min: 1, max: 900 }),
        fc.integer({ min: 1, max: 2500 }),
        fc.array(syringe, { minLength: 1, maxLength: 6 }),
        fc.boolean(),
        fc.integer({ min: 0, max: 12 }),
        fc.integer({ min: 90, max: 130 }),
        (grams, tenthsPerKg, tenthsPerMl, list, down, tolerance, ceilingPercent) => {
          const formulary = formularyWith(list);
          const usual = `${Math.floor(tenthsPerKg / 10)}.${tenthsPerKg % 10}`;
          const high = String((tenthsPerKg * Math.max(100, ceilingPercent)) / 1000);
          const drug = Product.parse({
            ...product('pyrantel-50'),
            ingredients: [{ name: 'pyrantel', mg_per_ml: `${Math.floor(tenthsPerMl / 10)}.${tenthsPerMl % 10}` }],
            dose: { by: 'mg-per-kg', low: usual, usual, high },
            band: { low: '0', high },
            rounding: down ? 'down' : 'nearest',
            tolerancePercent: String(tolerance),
          });
          const answer = dose(drug, formulary, grams);
          const rule = { num: BigInt(tenthsPerKg), den: BigInt(tenthsPerMl) };
          const ceiling = {
            num: BigInt(tenthsPerKg) * BigInt(Math.max(100, ceilingPercent)) * BigInt(grams),
            den: 100n * BigInt(tenthsPerMl),
          };
          const other = markByFractions(rule, grams, formulary.syringes, {
            down,
            tolerance: BigInt(tolerance),
            ceiling,
          });
          expect(answer.drawn?.volume_ul ?? null).toEqual(other === null ? null : Number(other.ul));
          if (answer.drawn !== null && other !== null) {
            const capacity = (id: string) => formulary.syringes.find((one) => one.id === id);
            expect(capacity(answer.drawn.syringe)?.capacity_ul).toBe(capacity(other.syringe)?.capacity_ul);
            const drawn = BigInt(answer.drawn.volume_ul);
            expect(drawn * ceiling.den <= ceiling.num).toBe(true);
          }
        },
      ),
      { numRuns: 400 },
    );
  });

  test('mL per pound, whose exact volume never ends, against fractions of whole numbers', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 6000 }),
        fc.integer({ min: 1, max: 60 }),
        fc.array(syringe, { minLength: 1, maxLength: 6 }),
        fc.boolean(),
        (grams, hundredths, list, down) => {
          const formulary = formularyWith(list);
          const ml = `0.${String(hundredths).padStart(2, '0')}`;
          const drug = Product.parse({
            ...product('imidacloprid-100'),
            dose: { by: 'ml-per-weight', ml, per: 'lb', forStrength_mg_per_ml: '100' },
            band: null,
            rounding: down ? 'down' : 'nearest',
          });
          const answer = dose(drug, formulary, grams);
          // ul = hundredths * 10 * grams / 453.59237
          const rule = { num: BigInt(hundredths) * 10n * 100_000n, den: 45_359_237n };
          const other = markByFractions(rule, grams, formulary.syringes, { down, tolerance: 10n, ceiling: null });
          expect(answer.drawn?.volume_ul ?? null).toEqual(other === null ? null : Number(other.ul));
        },
      ),
      { numRuns: 400 },
    );
  });

  test('a volume just under a half mark is not lifted by rounding to microlitres first', () => {
    // 74.957 uL would be 75 in whole microlitres; on 10 uL marks the exact value goes down and so does the tie.
    const formulary = formularyWith([{ capacity: 300, mark: 10 }]);
    const drug = Product.parse({ ...product('imidacloprid-100'), band: null });
    const answer = dose(drug, formulary, 680);
    expect(answer.drawn?.volume_ul).toBe(70);
  });
});
