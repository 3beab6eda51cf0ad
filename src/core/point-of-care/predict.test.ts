import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { calculatePrediction, PredictInput } from './calculate.js';
import { exactInterval, wilson } from './interval.js';
import { chain, predict } from './predict.js';

const value = <T>(outcome: { ok: true; value: T } | { ok: false }): T => {
  if (!outcome.ok) throw new Error('refused');
  return outcome.value;
};

describe('predictive values (Verifies: TEST-R6, TEST-R7)', () => {
  test('agree with counting animals one by one', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100 }),
        fc.integer({ min: 0, max: 100 }),
        fc.integer({ min: 1, max: 999 }),
        (sens, spec, infected) => {
          // A hundred thousand animals, so that every share is a whole number of them.
          const truePositive = infected * sens;
          const falsePositive = (1000 - infected) * (100 - spec);
          const { ppv } = value(predict({ sensitivity: sens / 100, specificity: spec / 100 }, infected / 1000));
          if (truePositive + falsePositive === 0) expect(ppv ?? 0).toBeCloseTo(0, 12);
          else expect(ppv ?? -1).toBeCloseTo(truePositive / (truePositive + falsePositive), 10);
        },
      ),
    );
  });

  test('a perfect study never reads as certainty', () => {
    const answer = value(predict({ sensitivity: { hits: 146, of: 146 }, specificity: { hits: 154, of: 154 } }, 0.01));
    expect(answer.ppv).toBe(1);
    expect(answer.range?.ppv.low).toBeLessThan(0.3);
    expect(answer.words.map((one) => one.say)).toContain('test.range-wilson');
  });

  test('no positives at all have no predictive value', () => {
    expect(value(predict({ sensitivity: 0, specificity: 1 }, 0.1)).ppv).toBeNull();
    expect(value(predict({ sensitivity: 1, specificity: 1 }, 1)).npv).toBeNull();
  });

  test.each([
    [{ sensitivity: 1.2, specificity: 0.9 }, 0.1],
    [{ sensitivity: 0.9, specificity: Number.NaN }, 0.1],
    [{ sensitivity: { hits: 5, of: 4 }, specificity: 0.9 }, 0.1],
    [{ sensitivity: 0.9, specificity: 0.9 }, -0.1],
  ])('%j at %s is refused', (accuracy, prevalence) => {
    expect(predict(accuracy, prevalence).ok).toBe(false);
  });
});

test('tests in a row say that they are seldom independent (Verifies: TEST-R9)', () => {
  const tests = [{ sensitivity: 0.9, specificity: 0.9, seen: 'positive' as const }];
  const row = value(chain(0.5, tests));
  expect(row.after[0]).toBeCloseTo(0.9, 12);
  expect(row.caution.say).toBe('test.chain-not-independent');
  expect(chain(2, tests).ok).toBe(false);
});

describe('intervals (Verifies: TEST-R8)', () => {
  test('hold the share, name their method and stay inside 0 and 1', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3000 }), fc.double({ min: 0, max: 1, noNaN: true }), (of, part) => {
        const hits = Math.round(part * of);
        for (const interval of [wilson(hits, of), exactInterval(hits, of)]) {
          expect(interval.low).toBeGreaterThanOrEqual(0);
          expect(interval.high).toBeLessThanOrEqual(1);
          expect(interval.low).toBeLessThanOrEqual(hits / of + 1e-12);
          expect(interval.high).toBeGreaterThanOrEqual(hits / of - 1e-12);
        }
        expect(wilson(hits, of).method).toBe('wilson');
        expect(exactInterval(hits, of).method).toBe('exact');
      }),
      { numRuns: 60 },
    );
  });
  test('of none and of all have one end closed', () => {
    expect(exactInterval(0, 20).low).toBe(0);
    expect(exactInterval(20, 20).high).toBe(1);
    expect(() => wilson(3, 2)).toThrow(RangeError);
  });
});

test('the calculator takes three forms and refuses others', () => {
  const run = (input: unknown) => calculatePrediction(PredictInput.parse(input));
  expect(run({ sensitivity: 0.89, specificity: 0.955, prevalence: 0.01 })).toMatchObject({
    ok: true,
    value: { of: 'prediction' },
  });
  expect(run({ prevalence: 0.01, tests: [{ sensitivity: 1, specificity: 0.9, seen: 'negative' }] })).toMatchObject({
    value: { of: 'chain', after: [0] },
  });
  expect(run({ truePositive: 6, falseNegative: 9, falsePositive: 0, trueNegative: 285 })).toMatchObject({
    value: { of: 'study', sensitivity: { share: 0.4 } },
  });
  expect(run({ truePositive: 0, falseNegative: 0, falsePositive: 0, trueNegative: 0 }).ok).toBe(false);
  expect(PredictInput.safeParse({ sensitivity: 3, specificity: 1, prevalence: 0 }).success).toBe(false);
});
