import { z } from 'zod';
import { no, type Outcome, ok, type Said } from '../said.js';
import { accuracyOf, chain, type Measured, type Prediction, predict } from './predict.js';

const share = z.union([
  z.number().min(0).max(1),
  z.strictObject({ hits: z.number().int().min(0), of: z.number().int().min(1) }),
]);
const count = z.number().int().min(0);

/** One line in of the `predict` calculator: accuracy and prevalence, tests in a row, or the four counts of a study. */
export const PredictInput = z.union([
  z.strictObject({
    sensitivity: share,
    specificity: share,
    prevalence: share,
    method: z.enum(['wilson', 'exact']).default('wilson'),
  }),
  z.strictObject({
    prevalence: z.number().min(0).max(1),
    tests: z
      .array(z.strictObject({ sensitivity: share, specificity: share, seen: z.enum(['positive', 'negative']) }))
      .min(1)
      .max(10),
  }),
  z.strictObject({ truePositive: count, falseNegative: count, falsePositive: count, trueNegative: count }),
]);
export type PredictInput = z.input<typeof PredictInput>;

/** One line out, by which form came in. */
export type PredictOutput =
  | ({ readonly of: 'prediction' } & Prediction)
  | { readonly of: 'chain'; readonly after: readonly (number | null)[]; readonly words: readonly Said[] }
  | {
      readonly of: 'study';
      readonly sensitivity: Measured | null;
      readonly specificity: Measured | null;
      readonly ppv: Measured | null;
      readonly npv: Measured | null;
    };

/** The `predict` calculator: what a test result is worth, or the sentence why it cannot be worked out. */
export function calculatePrediction(input: z.output<typeof PredictInput>): Outcome<PredictOutput> {
  if ('tests' in input) {
    const row = chain(input.prevalence, input.tests);
    return row.ok ? ok({ of: 'chain', after: row.value.after, words: [row.value.caution] }) : row;
  }
  if ('truePositive' in input) {
    const { truePositive, falseNegative, falsePositive, trueNegative } = input;
    if (truePositive + falseNegative + falsePositive + trueNegative === 0) return no('test.study-empty');
    return ok({ of: 'study', ...accuracyOf(input) });
  }
  const prediction = predict(input, input.prevalence, input.method);
  return prediction.ok ? ok({ of: 'prediction', ...prediction.value }) : prediction;
}
