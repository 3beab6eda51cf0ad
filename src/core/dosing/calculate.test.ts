import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { CalendarDate } from '../calendar.js';
import { calculateDose, DoseInput } from './calculate.js';
import { FormularyDocument } from './formulary.js';

const formulary = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const context = { formulary, today: CalendarDate.parse('2026-03-12'), now: '2026-03-12T15:00:00Z' };
const run = (input: unknown) => calculateDose(DoseInput.parse(input), context);

describe('the dose calculator', () => {
  test('answers for a product as the round does (Verifies: DOSE-R4)', () => {
    expect(run({ weight: '1.5 lb', product: 'imidacloprid-100', age_days: 63 })).toMatchObject({
      ok: true,
      value: { grams: '680', drawn_ml: '0.075', mark: '7.5\u00a0units', stopped: false },
    });
    expect(run({ weight: '1.5 lb', product: 'imidacloprid-100', age_days: 40 })).toMatchObject({
      ok: true,
      value: { stopped: true, gates: [{ code: 'below-label-age' }, { code: 'small-volume' }] },
    });
    // Verifies: DOSE-R62. Nothing that could be drawn stands beside a stop.
    expect(run({ weight: '500 g', product: 'mirtazapine-ointment-20', age_days: 70 })).toMatchObject({
      value: {
        stopped: true,
        mg: null,
        ml: null,
        mg_per_kg: null,
        drawn_ml: null,
        mark: null,
        errors: null,
        trace: [],
      },
    });
    const old = run({
      weight: '680 g',
      product: 'pyrantel-50',
      age_days: { youngest: 50, oldest: 60 },
      weighed_hours_ago: 73,
    });
    expect(old).toMatchObject({ value: { stopped: true, gates: [{ code: 'weight-stale' }, {}] } });
  });

  // Kitten weight chart of 8 weeks: 850 to 950 g; believed up to twice that (DOSE-R14).
  test.each([
    ['9.5 kg', 56, true],
    ['2 kg', 56, true],
    ['95 g', 56, true],
    ['900 g', 56, false],
    ['4.5 kg', 900, false],
  ])('asks about %s at %i days (Verifies: DOSE-R45)', (weight, age_days, asked) => {
    const answer = run({ weight, product: 'pyrantel-50', age_days });
    if (!answer.ok) throw new Error(answer.why.say);
    const gate = answer.value.gates.find((one) => one.code === 'weight-doubtful');
    expect(gate?.why.say.startsWith('dose.weight-') ?? false).toBe(asked);
    expect(answer.value.stopped).toBe(asked);
  });

  test('a later day makes the hours since longer, an earlier one does not (Verifies: DOSE-R45)', () => {
    const input = DoseInput.parse({ weight: '900 g', product: 'pyrantel-50', age_days: 60, weighed_hours_ago: 1 });
    const on = (now: string) => {
      const answer = calculateDose(input, { ...context, now, asked: '2026-03-12T15:00:00Z' });
      return answer.ok ? answer.value.gates.map((one) => one.code) : [];
    };
    expect(on('2026-03-12T15:00:00Z')).not.toContain('weight-stale');
    expect(on('2026-03-22T15:00:00Z')).toContain('weight-stale');
    expect(on('2026-03-02T15:00:00Z')).not.toContain('weight-stale');
  });

  test('answers for figures of a label, with and without a syringe (Verifies: DOSE-R9)', () => {
    expect(run({ weight: '2.5 kg', mg_per_kg: 6, strength_mg_per_ml: '60' })).toMatchObject({
      value: { mg: '15', ml: '0.25', mg_per_kg: '6', mark: null },
    });
    const syringe = { capacity_ml: '1', mark_ml: '0.025', scale: 'U-40' };
    expect(run({ weight: '1 kg', ml_per_kg: '0.1', strength_mg_per_ml: 100, syringe })).toMatchObject({
      value: { drawn_ml: '0.1', mark: '4\u00a0units', stopped: false },
    });
    const tiny = run({ weight: '100 g', ml_per_kg: '0.1', strength_mg_per_ml: 100, syringe });
    expect(tiny).toMatchObject({
      value: { mark: null, stopped: true, trace: [{ what: { say: 'dose.gate.no-syringe-known' } }] },
    });
  });

  test.each([
    [{ weight: '1,234 g', product: 'pyrantel-50', age_days: 60 }, 'dose.weight-two-readings'],
    [{ weight: '1½ lb', product: 'pyrantel-50', age_days: 60 }, 'dose.number-fraction'],
    [{ weight: '1 kg', product: 'no-such-product', age_days: 60 }, 'dose.product-unknown'],
    [{ weight: '1 kg', product: 'pyrantel-50', age_days: { youngest: 90, oldest: 20 } }, 'dose.age-reversed'],
    [
      { weight: '1 kg', product: 'pyrantel-50', age_days: 60, given: [{ product: 'nosuch', hours_ago: 2 }] },
      'dose.given-unknown',
    ],
    [{ weight: '1 kg', strength_mg_per_ml: 5 }, 'dose.one-amount-wanted'],
    [{ weight: '1 kg', mg_per_kg: 5, mg_per_lb: 5, strength_mg_per_ml: 5 }, 'dose.one-amount-wanted'],
  ])('%j is refused with %s (Verifies: DOSE-R66)', (input, why) => {
    expect(run(input)).toMatchObject({ ok: false, why: { say: why } });
  });

  test.each([
    [{ weight: '1 kg', mg_per_kg: 0, strength_mg_per_ml: 5 }],
    [{ weight: '1 kg', mg_per_kg: '1e3', strength_mg_per_ml: 5 }],
    [{ weight: '1 kg', product: 'pyrantel-50', age_days: 60, strength_read: '4.54 mg/mL' }],
    [{ weight: '1 kg', product: 'pyrantel-50', age_days: { youngest: -1, oldest: 20 } }],
    [{ weight: '1 kg', product: 'pyrantel-50' }],
    [{ weight: 1, product: 'pyrantel-50', age_days: 5 }],
    [{ weight: '1 kg', product: 'pyrantel-50', age_days: 5, dose: 3 }],
  ])('%j is no input', (input) => {
    expect(DoseInput.safeParse(input).success).toBe(false);
  });

  test('of figures that come to more than any dose there is nothing to draw (Verifies: DOSE-R66)', () => {
    const over = {
      stopped: true,
      ml: null,
      mg: null,
      drawn_ml: null,
      gates: [{ code: 'outside-band', severity: 'stop' }],
    };
    expect(run({ weight: '4 kg', mg_per_kg: 5000, strength_mg_per_ml: 1 })).toMatchObject({ ok: true, value: over });
    expect(run({ weight: '4 kg', mg_per_kg: 1001, strength_mg_per_ml: 500 })).toMatchObject({ value: over });
    expect(run({ weight: '4 kg', ml_per_kg: 31, strength_mg_per_ml: 9 })).toMatchObject({ value: over });
    const most = { weight: '4 kg', ml_per_kg: 30, strength_mg_per_ml: 9 };
    expect(run(most)).toMatchObject({ value: { stopped: false, ml: '120', gates: [] } });
  });
});
