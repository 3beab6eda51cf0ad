import type { Asks, Given, Question } from './ask.js';
import { found, predict, rounded } from './product.js';
import { publishedOf } from './value.js';

/** Percent as it is printed, from a share; the calculator answers doubles. */
const percent = (share: number | null | undefined, decimals: number): string | null =>
  share === null || share === undefined ? null : rounded(String(Number((share * 100).toPrecision(12))), decimals);

const values = (sensitivity: number, specificity: number, prevalence: number) => {
  const answer = predict({ sensitivity, specificity, prevalence });
  if (answer.of !== 'prediction') throw new Error('no prediction');
  return answer;
};
const given3 = (given: Given) => values(given.number('sens'), given.number('spec'), given.number('prevalence'));
const falseOf = (ppv: number | null): string | null => percent(ppv === null ? null : 1 - ppv, 1);

const predicted: Question = (given) => {
  const { ppv, npv } = given3(given);
  return { ppvPct: percent(ppv, 1), npvPct: percent(npv, 2), falsePosPctOfPositives: falseOf(ppv) };
};

function study(truePositive: number, falseNegative: number, falsePositive: number, trueNegative: number) {
  const answer = predict({ truePositive, falseNegative, falsePositive, trueNegative });
  if (answer.of !== 'study') throw new Error('no study');
  return answer;
}
const twoByTwo: Question = (given) => {
  const [tp, fn, fp, tn] = ['tp', 'fn', 'fp', 'tn'].map((key) => given.number(key)) as [number, number, number, number];
  const all = study(tp, fn, fp, tn);
  return {
    sensPct: percent(all.sensitivity?.share, 1),
    specPct: percent(all.specificity?.share, 1),
    ppvPct: percent(all.ppv?.share, 1),
    npvPct: percent(all.npv?.share, 1),
  };
};

/** A share with both its intervals, as the calculator gives it for the sensitivity of a study. */
const shareOf = (hits: number, of: number) => found(study(hits, of - hits, 0, 0).sensitivity, 'share');
const bounds = ({ low, high }: { readonly low: number; readonly high: number }) => [percent(low, 1), percent(high, 1)];
const interval =
  (hits: string, of: string): Question =>
  (given) => {
    const all = shareOf(given.number(hits), given.number(of));
    return { pct: percent(all.share, 2), wilsonPct: bounds(all.wilson), exactPct: bounds(all.exact) };
  };

/** Two tests in a row, the first positive. */
const twice = (given: Given, second: 'positive' | 'negative') => {
  const test = (key: string, seen: 'positive' | 'negative') => {
    const [sensitivity = 0, specificity = 0] = given.list(key).map(Number);
    return { sensitivity, specificity, seen };
  };
  const answer = predict({
    prevalence: given.number('prior'),
    tests: [test('first', 'positive'), test('second', second)],
  });
  if (answer.of !== 'chain') throw new Error('no chain');
  return answer.after;
};

/** Accuracy of a test of the four, as BAY-01 has it. */
const accuracies = found(
  publishedOf('protocols').find(({ id }) => id === 'BAY-01'),
  'BAY-01',
).expect as Readonly<Record<string, { readonly sens: number; readonly spec: number }>>;
const accuracy = (test: string) => found(accuracies[test], `test ${test}`);

export const worths: Asks = {
  ...Object.fromEntries(
    ['BAY-03', 'BAY-04', 'BAY-06', 'BAY-07', 'BAY-08', 'BAY-09'].map((id): [string, Question] => [id, predicted]),
  ),
  'BAY-12': (given) => {
    const at = (spec: number) => percent(values(given.number('sens'), spec, given.number('prevalence')).ppv, 1);
    return {
      ppvPointPct: at(given.number('spec')),
      ppvAtWilsonLowerPct: at(given.number('specWilsonLower')),
      ppvAtExactLowerPct: at(given.number('specExactLower')),
    };
  },
  'BAY-14': (given) => {
    const of = (test: string) => {
      const { sens, spec } = accuracy(test);
      return falseOf(values(sens, spec, given.number('prevalence')).ppv);
    };
    return { B_falsePct: of('B'), C_falsePct: of('C'), D_falsePct: of('D') };
  },
  'BAY-16': twoByTwo,
  'BAY-17': twoByTwo,
  'BAY-19': (given) => ({
    maxAntigenSensPct: percent(shareOf(given.number('progressive'), given.number('infected')).share, 1),
  }),
  'BAY-20': (given) => {
    const of = (test: string) => {
      const [sens = 0, spec = 0] = given.list(test).map(Number);
      return values(sens, spec, given.number('prevalence'));
    };
    const [a, b] = [of('A'), of('B')];
    return {
      A_ppvPct: percent(a.ppv, 1),
      A_npvPct: percent(a.npv, 1),
      B_ppvPct: percent(b.ppv, 1),
      B_npvPct: percent(b.npv, 1),
    };
  },
  'BAY-25': (given) => {
    const { ppv, npv } = given3(given);
    return { ppvPct: percent(ppv, 1), npvPct: percent(npv, 1) };
  },
  'BAY-26': (given) => {
    const [first, second] = twice(given, 'positive');
    return { afterFirstPct: percent(first, 1), afterSecondPct: percent(second, 1) };
  },
  'BAY-27': (given) => ({ probInfectedPct: percent(twice(given, 'negative').at(-1), 2) }),
  'BAY-29': (given) => {
    const { sensitivity, specificity } = study(
      given.number('tpSaliva'),
      given.number('fnSaliva'),
      given.number('fpSaliva'),
      given.number('tnSaliva'),
    );
    return { salivaSensPct: percent(sensitivity?.share, 1), salivaSpecPct: percent(specificity?.share, 1) };
  },
  'BAY-30': (given) => {
    const ill = given.number('tested') * given.number('prevalence');
    const seen = Math.round(ill * given.number('sens'));
    const falsePositive = given.number('falsePos');
    const answer = study(seen, ill - seen, falsePositive, given.number('tested') - ill - falsePositive);
    return {
      ppvPct: percent(answer.ppv?.share, 1),
      falsePct: falseOf(answer.ppv?.share ?? null),
      impliedSpecPct: percent(answer.specificity?.share, 1),
    };
  },
  'PRV-01': interval('positive', 'n'),
  'PRV-02': interval('positive', 'n'),
  'PRV-03': (given) => ({
    fivPct: percent(shareOf(given.number('fiv'), given.number('n')).share, 2),
    bothPct: percent(shareOf(given.number('both'), given.number('n')).share, 2),
  }),
  'PRV-09': (given) => {
    const of = (key: string) => shareOf(given.number(key), given.number('n'));
    return {
      progressivePct: percent(of('progressive').share, 1),
      regressivePct: percent(of('regressive').share, 1),
      progressiveWilson: bounds(of('progressive').wilson),
    };
  },
  'PRV-11': interval('x', 'n'),
  'PRV-12': interval('x', 'n'),
  'PRV-13': interval('x', 'n'),
};
