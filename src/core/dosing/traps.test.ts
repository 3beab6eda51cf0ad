import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CalendarDate } from '../calendar.js';
import { PersonId, RecordId } from '../ids.js';
import { contradictions, toConfirm } from './before-signing.js';
import { courseState } from './course.js';
import { type Dose, doseOf } from './dose.js';
import type { DoseQuestion } from './dose-question.js';
import { FormularyDocument, Product } from './formulary.js';
import type { OpenedGate } from './gate.js';
import { dilutionAddsUp } from './strength.js';

const formulary = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const today = CalendarDate.parse('2026-03-12');
const now = '2026-03-12T15:00:00Z';
const hoursAgo = (hours: number): string => new Date(Date.parse(now) - hours * 3_600_000).toISOString();
function productOf(id: string): Product {
  const found = formulary.products.find((one) => one.id === id);
  if (found === undefined) throw new Error(id);
  return found;
}
const like = (id: string, changes: Record<string, unknown>): Product => Product.parse({ ...productOf(id), ...changes });
function dose(product: Product | string, grams: number, weeks: number, more: Partial<DoseQuestion> = {}): Dose {
  return doseOf({
    product: typeof product === 'string' ? productOf(product) : product,
    formulary,
    weighing: { grams, at: now, doubtful: false },
    ageDays: { youngest: weeks * 7, oldest: weeks * 7 },
    today,
    now,
    syringes: formulary.syringes.map((one) => one.id),
    ...more,
  });
}
const stops = (answer: Dose): string[] =>
  answer.gates.filter((gate) => gate.severity === 'stop').map((gate) => gate.code);
const notes = (answer: Dose): string[] =>
  answer.gates.filter((gate) => gate.severity === 'note').map((gate) => gate.code);

describe('strengths (traps 5, 7, 13)', () => {
  it('another strength on the label stops and says how many times (Verifies: DOSE-R21)', () => {
    const right = dose('selamectin-60', 2500, 20, { strengthRead: '60' });
    expect(stops(right)).toEqual([]);
    const wrong = dose('selamectin-60', 2500, 20, { strengthRead: '120' });
    expect(stops(wrong)).toEqual(['strength-twin']);
    expect(wrong.gates[0]?.why.with).toMatchObject({ times: '2', what: 'the strength for dogs' });
    // The milligrams of the dose in the strength that was read, though nothing of it may be drawn yet.
    expect(wrong).toMatchObject({
      otherStrength: '120',
      exact_ug: right.exact_ug,
      exact_ul: (right.exact_ul ?? 0) / 2,
    });
    // A figure written otherwise is the same strength.
    expect(stops(dose('selamectin-60', 2500, 20, { strengthRead: '60.0' }))).toEqual([]);
  });

  it('the strength that was read is known where no volume is worked out, too (Verifies: DOSE-R71)', () => {
    const product = productOf('selamectin-60');
    const read = (more: Partial<DoseQuestion>) =>
      dose(product, 2500, 20, { strengthRead: '120', ...more }).otherStrength;
    expect(read({ weighing: null })).toBe('120');
    expect(read({ ordered: { is: 'words', words: 'one drop' } })).toBe('120');
    expect(
      dose(product, 2500, 20, { strengthRead: '60', ordered: { is: 'words', words: 'one drop' } }).otherStrength,
    ).toBeNull();
  });

  it('a product for dogs is known by its box and gives no figure (Verifies: DOSE-R16)', () => {
    const answer = dose('selamectin-120-dog', 2500, 20);
    expect(answer).toMatchObject({ exact_ul: null, drawn: null, stopped: true, gates: [{ code: 'not-for-species' }] });
  });

  it('a vial has the strength it was made up to, until it is thrown away (Verifies: DOSE-R30)', () => {
    const made = (mg_per_ml: string, hours: number) => ({ madeUp: { mg_per_ml, at: hoursAgo(hours) } });
    expect(stops(dose('amoxicillin-injection', 1814, 20, { role: 'medical' }))).toEqual(['not-made-up']);
    const weak = dose('amoxicillin-injection', 1814, 20, made('100', 1));
    const strong = dose('amoxicillin-injection', 1814, 20, made('250', 1));
    expect([weak.drawn?.volume_ul, strong.drawn?.volume_ul]).toEqual([200, 80]);
    expect(stops(dose('amoxicillin-injection', 1814, 20, made('100', 24)))).toEqual([]);
    expect(stops(dose('amoxicillin-injection', 1814, 20, made('100', 24.1)))).toEqual(['made-up-too-old']);
    expect(stops(dose('amoxicillin-injection', 1814, 20, made('150', 1)))).toEqual(['not-made-up']);
  });
});

describe('limits of an animal (traps 8, 9, 16)', () => {
  it('a whole tube on a very small kitten stops, whatever the label amount is (Verifies: DOSE-R36)', () => {
    const tube = like('imidacloprid-tube-0-4', { dose: { by: 'fixed', ml: '0.4' } });
    expect(stops(dose(tube, 454, 9))).toEqual(['outside-band']);
    expect(stops(dose(tube, 1000, 9))).toEqual([]);
    expect(stops(dose(tube, 999, 9))).toEqual(['outside-band']);
  });

  it('a volume over the limit of one place is split, and beyond the places it stops (Verifies: DOSE-R26)', () => {
    const once = like('saline-0-9', {
      dose: { by: 'ml-per-weight', ml: '10', per: 'kg', forStrength_mg_per_ml: '9' },
    });
    expect(dose(once, 500, 20)).toMatchObject({ places: 1, total_ul: 5000, drawn: { volume_ul: 5000 } });
    const twice = like('saline-0-9', {
      dose: { by: 'ml-per-weight', ml: '16', per: 'kg', forStrength_mg_per_ml: '9' },
    });
    expect(dose(twice, 500, 20)).toMatchObject({ places: 2, total_ul: 8000, drawn: { volume_ul: 4000 } });
    const tooMuch = like('saline-0-9', {
      dose: { by: 'ml-per-weight', ml: '31', per: 'kg', forStrength_mg_per_ml: '9' },
    });
    expect(stops(dose(tooMuch, 500, 20))).toEqual(['too-much-for-sites']);
    expect(dose('core-vaccine-live-1ml', 250, 8)).toMatchObject({ places: 1, total_ul: 1000, stopped: false });
  });

  it('who may give it is data (Verifies: DOSE-R32)', () => {
    expect(stops(dose('maropitant-10', 2400, 30, { role: 'volunteer' }))).toEqual([]);
    const ordered = { ordered: { is: 'words', words: '20 mL under the skin' } } as const;
    expect(stops(dose('saline-0-9', 500, 20, { ...ordered, role: 'volunteer' }))).toEqual(['not-yours-to-give']);
    expect(stops(dose('saline-0-9', 500, 20, { ...ordered, role: 'medical' }))).toEqual([]);
  });
});

describe('a word that opens a stop (Verifies: DOSE-R31)', () => {
  const word = (more: Partial<OpenedGate> = {}): OpenedGate => ({
    record: RecordId.parse('r1'),
    gates: ['below-label-age'],
    product: productOf('imidacloprid-100').id,
    by: PersonId.parse('vera'),
    reason: 'flea anaemia',
    until: today,
    ...more,
  });
  it('turns it into a note with who, reason and last day', () => {
    expect(stops(dose('imidacloprid-100', 500, 5))).toEqual(['below-label-age']);
    const opened = dose('imidacloprid-100', 500, 5, { opened: [word()] });
    expect(stops(opened)).toEqual([]);
    expect(opened.gates.find((gate) => gate.code === 'below-label-age')).toMatchObject({
      severity: 'note',
      passedBy: { by: 'vera', reason: 'flea anaemia' },
    });
  });
  it.each([
    ['run out', word({ until: CalendarDate.parse('2026-03-11') })],
    ['for another product', word({ product: productOf('pyrantel-50').id })],
    ['for another stop', word({ gates: ['below-label-weight'] })],
  ])('counts for nothing when it is %s', (_, opened) => {
    expect(stops(dose('imidacloprid-100', 500, 5, { opened: [opened] }))).toEqual(['below-label-age']);
  });
  it('opens another species, and only then is there a figure', () => {
    const dog = word({ product: productOf('selamectin-120-dog').id, gates: ['not-for-species'] });
    const answer = dose('selamectin-120-dog', 2500, 20, { opened: [dog] });
    expect(stops(answer)).toEqual([]);
    // 6 mg per kg of 2.5 kg is 15 mg; of 120 mg per mL an eighth of a millilitre.
    expect(answer).toMatchObject({ exact_ug: 15_000, exact_ul: 125 });
    expect(answer.gates.find((gate) => gate.code === 'not-for-species')).toMatchObject({ severity: 'note' });
  });
  it('lets another strength be used by the same milligrams, never by the same volume', () => {
    const product = like('pyrantel-50', {});
    const twin = word({ product: product.id, gates: ['strength-twin'] });
    const own = dose(product, 900, 9);
    const other = dose(product, 900, 9, { strengthRead: '25', opened: [twin] });
    expect(stops(other)).toEqual([]);
    expect(other.exact_ug).toBe(own.exact_ug);
    expect(other.exact_ul).toBe(2 * (own.exact_ul ?? 0));
    expect([own.otherStrength, other.otherStrength]).toEqual([null, '25']);
    // A volume from a table of the label belongs to its strength.
    const fixed = like('pyrantel-50', { dose: { by: 'fixed', ml: '0.4' }, band: null });
    const open = dose(fixed, 900, 9, { strengthRead: '25', opened: [{ ...twin, product: fixed.id }] });
    expect(stops(open)).toEqual(['rule-for-another-strength']);
  });
  it('does not open what harms cats, what the maker called back, or what has no figure', () => {
    const harmful = like('pyrantel-50', { ingredients: [{ name: 'permethrin', counted: 'base', mg_per_ml: '50' }] });
    const never = word({ product: harmful.id, gates: ['never-for-cats', 'not-for-species'] });
    expect(dose(harmful, 900, 9, { opened: [never] })).toMatchObject({ exact_ul: null, stopped: true });
    const back = word({ product: productOf('pyrantel-50').id, gates: ['lot-withdrawn'] });
    const lot = { expiresOn: null, withdrawn: true };
    expect(stops(dose('pyrantel-50', 900, 9, { lot, opened: [back] }))).toEqual(['lot-withdrawn']);
    const product = like('pyrantel-50', { ingredients: [{ name: 'pyrantel', counted: 'embonate', mg_per_ml: '50' }] });
    const salt = word({ product: product.id, gates: ['salt-and-base'] });
    expect(stops(dose(product, 900, 9, { opened: [salt] }))).toEqual(['salt-and-base']);
  });
});

describe('small volumes (traps 10, 11, 14)', () => {
  it('says what the syringe may be off, and both errors at their worst (Verifies: DOSE-R27)', () => {
    // 75 microlitres in a 0.3 mL barrel: 1.5 percent of 300 and 2 of 75 are 6; on the mark, so nothing is added.
    const units = dose(like('imidacloprid-100', { dose: { by: 'fixed', ml: '0.075' }, band: null }), 680, 9);
    expect(units).toMatchObject({
      drawn: { volume_ul: 75, errorPercent: '0' },
      measuring: { tolerance_ul: '6', tolerancePercent: '8', combinedPercent: '8' },
    });
    const rounded = dose('pyrantel-50', 680, 9);
    expect(rounded.drawn).toMatchObject({ volume_ul: 140 });
    // 17.8 microlitres of 140, and 4 of rounding: 21.8 of 136.
    expect(rounded.measuring).toMatchObject({ tolerance_ul: '17.8', combinedPercent: '16.03' });
  });

  it('warns of rinsing where it would at least double the dose (Verifies: DOSE-R28)', () => {
    expect(notes(dose('pyrantel-50', 350, 5))).toContain('rinse-would-add');
    expect(notes(dose('pyrantel-50', 400, 5))).not.toContain('rinse-would-add');
    const enteral = dose('pyrantel-50', 500, 5, {
      syringes: [formulary.syringes.find((one) => one.id === 'enteral-1')?.id ?? ('' as never)],
    });
    expect(enteral.measuring).toMatchObject({ deadSpace_ul: 148, rinseTimes: '2.48' });
  });

  it('dilutes by a signed recipe only, and only one that adds up (Verifies: DOSE-R29)', () => {
    const recipe = {
      id: 'one-in-ten',
      stock_ml: '1',
      diluent: 'syrup',
      diluent_ml: '9',
      gives_mg_per_ml: '10',
      goodForHours: 24,
      source: 'starter-choice',
      standing: 'computed',
    };
    const tiny = like('ponazuril-100', {
      dose: { by: 'mg-per-kg', low: '10', usual: '10', high: '10' },
      band: null,
      dilutions: [recipe],
    });
    const plain = dose(tiny, 120, 3);
    expect(stops(plain)).toContain('small-volume');
    expect(plain.dilutionsThatHelp).toEqual(['one-in-ten']);
    expect(dose(tiny, 120, 3, { dilution: 'one-in-ten' })).toMatchObject({ drawn: { volume_ul: 120 }, stopped: false });
    expect(stops(dose(tiny, 120, 3, { dilution: 'by-eye' }))).toContain('no-recipe');
    const wrong = { ...recipe, gives_mg_per_ml: '11' };
    expect(dilutionAddsUp(Product.parse({ ...tiny, dilutions: [wrong] }).dilutions[0] ?? (wrong as never), '100')).toBe(
      false,
    );
    expect(stops(dose(like('ponazuril-100', { dilutions: [wrong] }), 500, 5, { dilution: 'one-in-ten' }))).toContain(
      'no-recipe',
    );
  });

  it('dextrose goes in diluted, and under no skin (Verifies: DOSE-R25)', () => {
    expect(stops(dose('dextrose-50', 300, 1))).toEqual(['not-this-way']);
    expect(dose('dextrose-50', 300, 1, { dilution: 'ten-percent', role: 'medical' })).toMatchObject({
      drawn: { volume_ul: 1500 },
      stopped: false,
    });
    const under = like('dextrose-50', { route: 'under the skin' });
    expect(stops(dose(under, 300, 1, { dilution: 'ten-percent' }))).toContain('not-this-way');
  });
});

describe('what was given before (traps 19, 20)', () => {
  const had = (product: string, ...hours: number[]) => ({
    recent: hours.map((one) => ({ product: productOf(product).id, at: hoursAgo(one), volume_ul: 250 })),
  });

  it('one ingredient in two products stops within its spacing (Verifies: DOSE-R24)', () => {
    expect(stops(dose('selamectin-60', 2500, 30, had('eprinomectin-praziquantel', 27 * 24)))).toEqual([
      'ingredient-too-soon',
    ]);
    expect(stops(dose('selamectin-60', 2500, 30, had('eprinomectin-praziquantel', 28 * 24)))).toEqual([]);
    expect(stops(dose('praziquantel-20-pyrantel-230', 2500, 30, had('pyrantel-50', 24)))).toEqual([
      'ingredient-too-soon',
    ]);
    expect(stops(dose('pyrantel-50', 2500, 30, had('ponazuril-100', 24)))).toEqual([]);
  });

  it('a course goes on with its next dose and is not too soon for itself (Verifies: DOSE-R22)', () => {
    const course = productOf('ponazuril-100').course;
    if (course === null) throw new Error('no course');
    const state = (...hours: number[]) => courseState(course, hours.map(hoursAgo), now);
    expect(state()).toMatchObject({ number: 1, of: 3, dueAt: null });
    expect(state(24)).toMatchObject({ number: 2, of: 3 });
    expect(Date.parse(state(24).dueAt ?? '')).toBe(Date.parse(now));
    expect(state(48, 24)).toMatchObject({ number: 3 });
    expect(state(72, 48, 24)).toMatchObject({ number: 1 });
    // A day that was lost does not end the course; three do.
    expect(state(60)).toMatchObject({ number: 2 });
    expect(state(80)).toMatchObject({ number: 1 });
    expect(stops(dose('ponazuril-100', 500, 6, had('ponazuril-100', 23)))).toEqual([]);
    expect(stops(dose('ponazuril-100', 500, 6, had('ponazuril-100', 6)))).toEqual(['too-soon-in-course']);
  });

  it('the most of a day stops, in doses and in mg per kg (Verifies: DOSE-R23)', () => {
    const twice = { recent: had('metronidazole-50', 13, 1).recent };
    expect(stops(dose('metronidazole-50', 1000, 30, twice))).toContain('too-often');
    const much = { recent: [{ product: productOf('metronidazole-50').id, at: hoursAgo(12), volume_ul: 800 }] };
    expect(stops(dose('metronidazole-50', 1000, 30, much))).toEqual(['too-often']);
    // What was drawn from a vial of another strength counts by its own milligrams.
    const had400 = (strength_mg_per_ml: string | null) => ({
      recent: [{ product: productOf('metronidazole-50').id, at: hoursAgo(12), volume_ul: 400, strength_mg_per_ml }],
    });
    expect(stops(dose('metronidazole-50', 1000, 30, had400(null)))).toEqual([]);
    expect(stops(dose('metronidazole-50', 1000, 30, had400('100')))).toEqual(['too-often']);
  });
});

describe('before a formulary is signed (trap 23; Verifies: DOSE-R33)', () => {
  it('every figure from memory has a key of its own', () => {
    const keys = toConfirm(formulary).map((one) => one.key);
    expect(keys.length).toBeGreaterThan(40);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys).toContain('product pyrantel-50: strength of 50 mg per mL');
    expect(keys).toContain('instrument');
  });
  it('the starter formulary does not contradict itself, and a copied chart that does is named', () => {
    expect(contradictions(formulary)).toEqual([]);
    const [first] = formulary.products;
    if (first === undefined) throw new Error('empty');
    const bad = (changes: Record<string, unknown>) =>
      contradictions({ ...formulary, products: [Product.parse({ ...first, ...changes })] }).map((one) => one.say);
    expect(bad({ band: { low: '5', high: '2' } })).toEqual(['dose.fault.band']);
    expect(bad({ dose: { by: 'mg-per-kg', low: '5', usual: '10', high: '8' } })).toEqual(['dose.fault.order-of-doses']);
    expect(
      bad({ dose: { by: 'mg-per-kg', low: '5', usual: '50', high: '50' }, band: { low: '5', high: '20' } }),
    ).toEqual(['dose.fault.usual-outside']);
    expect(
      bad({
        dose: {
          by: 'bands',
          bands: [
            { from_g: 1, to_g: 900, ml: '1' },
            { from_g: 800, to_g: 2000, ml: '2' },
          ],
        },
      }),
    ).toEqual(['dose.fault.bands']);
    expect(bad({ source: 'some-web-page' })).toEqual(['dose.fault.source']);
  });
});
