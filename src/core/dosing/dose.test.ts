import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { CalendarDate } from '../calendar.js';
import { writeVolume } from '../quantity/write.js';
import { type Dose, doseOf } from './dose.js';
import type { DoseQuestion } from './dose-question.js';
import { FormularyDocument, Product, type StandingOrder } from './formulary.js';
import type { GateCode } from './gate.js';

const starter = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const day = (text: string) => CalendarDate.parse(text);
const today = day('2026-03-12');
const now = '2026-03-12T15:00:00Z';
const all = starter.syringes.map((syringe) => syringe.id);
const product = (id: string): Product => {
  const found = starter.products.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no product ${id}`);
  return found;
};

interface Given {
  readonly of?: string;
  readonly grams?: number | null;
  readonly weeks?: number;
  readonly change?: Partial<DoseQuestion>;
  readonly formulary?: FormularyDocument;
  readonly hours?: number;
}
const dose = ({ of = 'imidacloprid-100', grams = 680, weeks = 9, hours = 1, ...rest }: Given): Dose =>
  doseOf({
    product: product(of),
    formulary: rest.formulary ?? starter,
    weighing: grams === null ? null : { grams, at: '2026-03-12T14:00:00Z', doubtful: false },
    ageDays: { youngest: weeks * 7, oldest: weeks * 7 },
    today,
    now:
      hours === 1
        ? now
        : `2026-03-${12 + Math.floor((14 + hours) / 24)}T${String((14 + hours) % 24).padStart(2, '0')}:00:00Z`,
    syringes: all,
    ...rest.change,
  });
const stopCodes = (answer: Dose): GateCode[] =>
  answer.gates.filter((gate) => gate.severity === 'stop').map((gate) => gate.code);
const plainSpaces = (text: string | undefined): string => (text ?? '').replaceAll('\u00a0', ' ');

const order = (change: Partial<StandingOrder> = {}): StandingOrder => ({
  product: product('imidacloprid-100').id,
  allows: 'below-label-age',
  minAge: { weeks: 4 },
  min_g: 350,
  words: 'Kittens from 4 weeks with fleas.',
  by: 'Invented Veterinarian',
  licence: 'X-1',
  until: day('2026-12-31'),
  ...change,
});
const withOrder = (change: Partial<StandingOrder> = {}): FormularyDocument => ({
  ...starter,
  standingOrders: [order(change)],
});

describe('the starter formulary (Verifies: DOSE-R20)', () => {
  test('names a known source on every line and holds no standing order', () => {
    const ids = new Set(starter.sources.map((source) => source.id));
    const used = [
      ...starter.products.map((each) => each.source),
      ...starter.syringes.map((each) => each.source),
      ...starter.kits.map((each) => each.source),
      ...starter.neverForCats.map((each) => each.source),
      starter.weightFreshnessSource,
      starter.volumeFloorsSource,
    ];
    expect(used.filter((id) => !ids.has(id))).toEqual([]);
    expect(starter.standingOrders).toEqual([]);
    expect(starter.products.length).toBeGreaterThanOrEqual(7);
  });
});

describe('flea product for a kitten of 1.5 lb (680 g)', () => {
  test('is drawn to 7.5 units on the half-unit insulin syringe (Verifies: DOSE-R4, DOSE-R5, DOSE-R7, DOSE-R9)', () => {
    const answer = dose({});
    expect(answer.exact_ul).toBe(75);
    expect(answer.unrounded_ul).toBe('74.957169');
    expect(answer.exact_ug).toBe(7496);
    expect(answer.mgPerKg).toBe('11.0231');
    expect(answer.drawn).toMatchObject({ syringe: 'u100-half-0-3', volume_ul: 75, errorPercent: '0.06' });
    expect(plainSpaces(answer.drawn?.mark)).toBe('7.5 units');
    expect(answer.stopped).toBe(false);
    expect(answer.gates.map((gate) => gate.code)).toEqual(['small-volume']);
    expect(answer.trace.map((step) => step.what.say)).toEqual([
      'dose.step.weight',
      'dose.step.per-weight',
      'dose.step.drug-per-kg',
      'dose.step.volume',
      'dose.step.mark-over',
      'dose.step.instrument',
    ]);
  });

  test('with only coarse syringes at hand it stops and names the one that would do (Verifies: DOSE-R7)', () => {
    const syringes = starter.syringes
      .filter((one) => ['u100-1', 'luer-3', 'oral-1'].includes(one.id))
      .map((one) => one.id);
    const answer = dose({ change: { syringes } });
    expect(answer.drawn).toBeNull();
    expect(stopCodes(answer)).toEqual(['no-syringe']);
    const names = answer.gates.find((gate) => gate.code === 'no-syringe')?.why.with?.syringes;
    expect(JSON.stringify(names)).toContain('half units');
  });

  test('another strength under the same rule stops (Verifies: DOSE-R5)', () => {
    const twin = Product.parse({
      ...product('imidacloprid-100'),
      ingredients: [{ name: 'imidacloprid', mg_per_ml: '50' }],
    });
    const answer = dose({ change: { product: twin } });
    expect(stopCodes(answer)).toEqual(['rule-for-another-strength']);
    expect(answer.exact_ul).toBeNull();
  });
});

describe('the label (Verifies: DOSE-R10)', () => {
  test('under 8 weeks stops, at 8 weeks it does not', () => {
    expect(stopCodes(dose({ weeks: 7 }))).toEqual(['below-label-age']);
    expect(stopCodes(dose({ weeks: 8 }))).toEqual([]);
    expect(stopCodes(dose({ change: { ageDays: { youngest: 55, oldest: 55 } } }))).toEqual(['below-label-age']);
  });

  test('an estimated age counts from the youngest and says that it is uncertain', () => {
    const answer = dose({ change: { ageDays: { youngest: 50, oldest: 64 } } });
    expect(stopCodes(answer)).toEqual(['below-label-age']);
    expect(answer.gates[0]?.why.say).toBe('dose.gate.age-uncertain');
  });

  test('a current standing order turns the stop into a note that names it', () => {
    const answer = dose({ weeks: 6, formulary: withOrder() });
    expect(answer.stopped).toBe(false);
    const opened = answer.gates.find((gate) => gate.code === 'below-label-age');
    expect(opened).toMatchObject({ severity: 'note', passedBy: { by: 'Invented Veterinarian', licence: 'X-1' } });
  });

  test.each<[string, Partial<StandingOrder>, boolean]>([
    ['its last day', { until: today }, true],
    ['the day after', { until: day('2026-03-11') }, false],
    ['another product', { product: product('selamectin-60').id }, false],
    ['another permission', { allows: 'below-label-weight' }, false],
    ['its own least age not reached', { minAge: { weeks: 7 } }, false],
    ['its own least weight not reached', { min_g: 700 }, false],
    ['no limits of its own', { minAge: null, min_g: null }, true],
  ])('a standing order on %s', (_, change, opens) => {
    expect(dose({ weeks: 6, formulary: withOrder(change) }).stopped).toBe(!opens);
  });

  test('under the label weight stops: 950 g against 1 kg', () => {
    expect(stopCodes(dose({ of: 'fipronil-100', grams: 950 }))).toEqual(['below-label-weight', 'outside-band']);
    const answer = dose({ of: 'fipronil-100', grams: 1000 });
    expect(answer.stopped).toBe(false);
    expect(answer.drawn).toBeNull();
    expect(answer.pieces).not.toBeNull();
  });
});

describe('the weight (Verifies: DOSE-R13)', () => {
  test('missing stops what is dosed by weight and nothing else', () => {
    expect(stopCodes(dose({ grams: null }))).toEqual(['weight-missing']);
    const vaccine = dose({ of: 'core-vaccine-live-1ml', grams: null });
    expect(vaccine.stopped).toBe(false);
    expect(vaccine.exact_ul).toBe(1000);
    expect(plainSpaces(vaccine.drawn?.mark)).toBe('1 mL');
  });

  test.each([
    [3, 24, true],
    [3, 25, false],
    [4, 72, true],
    [6, 72, true],
    [6, 73, false],
    [8, 168, true],
    [9, 168, true],
    [9, 169, false],
    [16, 336, true],
    [20, 336, true],
    [20, 337, false],
  ])('at %i weeks of age after %i hours: fresh %s', (weeks, hours, fresh) => {
    expect(stopCodes(dose({ of: 'pyrantel-50', weeks, hours })).includes('weight-stale')).toBe(!fresh);
  });

  test('a doubtful one stops', () => {
    const weighing = { grams: 680, at: '2026-03-12T14:00:00Z', doubtful: true };
    expect(stopCodes(dose({ change: { weighing } }))).toEqual(['weight-doubtful']);
  });

  test('one from days ahead is a clock error', () => {
    const weighing = { grams: 680, at: '2026-03-20T14:00:00Z', doubtful: false };
    expect(dose({ change: { weighing } }).gates[0]?.why.say).toBe('dose.gate.weight-from-future');
  });
});

describe('amounts', () => {
  test('pyrantel 10 mg per kg at 350 g is 0.07 mL from the oral syringe (Verifies: DOSE-R4, DOSE-R7)', () => {
    const answer = dose({ of: 'pyrantel-50', grams: 350, weeks: 5 });
    expect(answer.unrounded_ul).toBe('70');
    expect(answer.drawn).toMatchObject({ syringe: 'oral-1', volume_ul: 70, errorPercent: '0' });
    expect(plainSpaces(answer.drawn?.mark)).toBe('0.07 mL');
  });

  test.each<[number, string | null]>([
    [2267, '200'],
    [2268, '400'],
    [4535, '400'],
    // The label says 5 to 10 lb: 10 lb itself, 4,536 g when weighed in pounds, is in the row.
    [4536, '400'],
    [4537, null],
    [4989, null],
    [4990, '600'],
  ])('praziquantel injection at %i g: %s (Verifies: DOSE-R6)', (grams, ul) => {
    const answer = dose({ of: 'praziquantel-injection-56-8', grams, weeks: 60 });
    expect(answer.unrounded_ul).toBe(ul);
    expect(stopCodes(answer)).toEqual(ul === null ? ['between-bands'] : []);
  });

  test('a printed band on a very small kitten goes to a second person (Verifies: DOSE-R11)', () => {
    const answer = dose({ of: 'praziquantel-injection-56-8', grams: 454, weeks: 8 });
    expect(answer.mgPerKg).toBe('25.022');
    expect(answer.gates[0]).toMatchObject({ code: 'outside-band', severity: 'second-person' });
  });

  test('a dose worked out beyond the range of the product stops (Verifies: DOSE-R11)', () => {
    const strong = Product.parse({
      ...product('pyrantel-50'),
      dose: { by: 'mg-per-kg', low: '5', usual: '100', high: '20' },
    });
    expect(stopCodes(dose({ change: { product: strong } }))).toEqual(['outside-band']);
  });

  test('salt and base are not mixed (Verifies: DOSE-R15)', () => {
    const salt = Product.parse({
      ...product('pyrantel-50'),
      ingredients: [{ name: 'pyrantel', counted: 'embonate', mg_per_ml: '144' }],
    });
    expect(stopCodes(dose({ change: { product: salt } }))).toEqual(['salt-and-base']);
  });

  test('permethrin and other species get no figure at all (Verifies: DOSE-R16)', () => {
    const harmful = Product.parse({
      ...product('imidacloprid-100'),
      ingredients: [
        { name: 'imidacloprid', mg_per_ml: '100' },
        { name: 'Permethrin', mg_per_ml: '500' },
      ],
    });
    const answer = dose({ change: { product: harmful } });
    expect(stopCodes(answer)).toEqual(['never-for-cats']);
    expect(answer.exact_ul).toBeNull();
    expect(answer.drawn).toBeNull();
    expect(stopCodes(dose({ change: { species: 'rabbit' } }))).toEqual(['not-for-species']);
  });

  test('an expired or withdrawn lot stops; the expiry day itself is good (Verifies: DOSE-R19)', () => {
    const lot = (expiresOn: string | null, withdrawn = false) =>
      stopCodes(dose({ change: { lot: { expiresOn: expiresOn === null ? null : day(expiresOn), withdrawn } } }));
    expect(lot('2026-03-12')).toEqual([]);
    expect(lot('2026-03-11')).toEqual(['lot-expired']);
    expect(lot(null, true)).toEqual(['lot-withdrawn']);
  });
});

describe('small volumes (Verifies: DOSE-R12)', () => {
  const small = (grams: number) => dose({ grams, formulary: withOrder({ min_g: null, minAge: null }), weeks: 5 });
  test.each([
    [2400, null, true],
    [1000, 'note', true],
    [680, 'note', true],
    [400, 'second-person', true],
    [160, 'stop', false],
  ])('at %i g', (grams, severity, drawnToMark) => {
    const answer = small(grams);
    const found = answer.gates.find((gate) => gate.code === 'small-volume');
    expect(found?.severity ?? null).toBe(severity);
    expect(answer.drawn !== null && !answer.stopped).toBe(drawnToMark);
  });

  test('the caution names the amount that is drawn to the mark, not the unrounded one (Verifies: ROUND-R88)', () => {
    for (const grams of [1000, 680, 433, 400]) {
      const answer = small(grams);
      const found = answer.gates.find((gate) => gate.code === 'small-volume');
      expect(found?.why.with?.volume).toBe(writeVolume(answer.drawn?.volume_ul ?? 0));
    }
  });

  test('under 0.05 mL only half-unit marks are taken', () => {
    expect(small(400).drawn?.syringe).toBe('u100-half-0-3');
  });
});
