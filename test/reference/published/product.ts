import { readFileSync } from 'node:fs';
import { CalendarDate } from '../../../src/core/calendar.js';
import { ChipInput, type ChipOutput, calculateChip } from '../../../src/core/chip/calculate.js';
import { calculateDose, DoseInput, type DoseOutput } from '../../../src/core/dosing/calculate.js';
import { type Dose, doseOf } from '../../../src/core/dosing/dose.js';
import type { DoseQuestion } from '../../../src/core/dosing/dose-question.js';
import { FormularyDocument, Product, type Syringe } from '../../../src/core/dosing/formulary.js';
import { calculatePrediction, PredictInput, type PredictOutput } from '../../../src/core/point-of-care/calculate.js';
import { exactly, plain } from '../../../src/core/quantity/exact.js';
import { readWeight, type WeightReading } from '../../../src/core/quantity/read-weight.js';
import type { Outcome } from '../../../src/core/said.js';

/** The doors of the product that the published values are put to: the calculators of the command line, and the dose. */
export const formulary = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
export const today = CalendarDate.parse('2026-03-12');
export const now = '2026-03-12T15:00:00Z';

export function found<T>(value: T | null | undefined, what: string): T {
  if (value === null || value === undefined) throw new Error(`there is no ${what}`);
  return value;
}
export const productOf = (id: string): Product =>
  found(
    formulary.products.find((one) => one.id === id),
    `product ${id}`,
  );
export const syringeOf = (id: string): Syringe =>
  found(
    formulary.syringes.find((one) => one.id === id),
    `syringe ${id}`,
  );
/** The starter formulary with a product that is like one of it, with some of its entry changed. */
export const withProduct = (like: string, changes: Record<string, unknown>): FormularyDocument => ({
  ...formulary,
  products: [...formulary.products, Product.parse({ ...productOf(like), ...changes, id: 'changed' })],
});

const value = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.why.say);
  return outcome.value;
};

/** `roundhand dose`. */
export const dose = (line: DoseInput, document = formulary): DoseOutput =>
  value(calculateDose(DoseInput.parse(line), { formulary: document, today, now }));
/** `roundhand chip`; what is refused is the key of the sentence. */
export function chip(line: ChipInput): ChipOutput | string {
  const answer = calculateChip(ChipInput.parse(line));
  return answer.ok ? answer.value : answer.why.say;
}
export const chipOf = (line: ChipInput): ChipOutput => {
  const answer = chip(line);
  if (typeof answer === 'string') throw new Error(answer);
  return answer;
};
/** `roundhand predict`. */
export const predict = (line: PredictInput): PredictOutput => value(calculatePrediction(PredictInput.parse(line)));

export const codes = (answer: Pick<Dose, 'gates'>, severity?: string): string[] =>
  answer.gates.filter((one) => severity === undefined || one.severity === severity).map((one) => one.code);

/** The weight that was typed, as a weighing reads it. */
export function weightOf(text: string, field: 'g' | 'kg' = 'g'): Extract<WeightReading, { is: 'weight' }>['weight'] {
  const reading = readWeight(text, field);
  if (reading.is !== 'weight') throw new Error(`${text} is no weight`);
  return reading.weight;
}

/** The dose that a screen works out, with what a calculator withholds while a stop stands. */
export const doseAt = (product: Product, weight: string, ageWeeks: number, more: Partial<DoseQuestion> = {}): Dose =>
  doseOf({
    product,
    formulary,
    weighing: { grams: weightOf(weight).grams, at: now, doubtful: false },
    ageDays: { youngest: ageWeeks * 7, oldest: ageWeeks * 7 },
    today,
    now,
    syringes: formulary.syringes.map((one) => one.id),
    ...more,
  });

/** A published rounded number is that of an exact one at as many decimals, halves up. */
export const rounded = (text: string | null, decimals: number): string | null =>
  text === null ? null : plain(exactly(text), decimals);
/** Microlitres in the millilitres of the published file. */
export const ml = (ul: string | number | null): string | null => (ul === null ? null : plain(exactly(ul).div(1000)));

/** A given that the question needs the product to have as well: another one would be another question. */
export function must(given: string, ours: string | null | undefined, what: string): void {
  if (ours === null || ours === undefined || Number(given) !== Number(ours))
    throw new Error(`${what} is given as ${given} and is ${ours} here`);
}
