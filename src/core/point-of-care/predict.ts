import { no, type Outcome, ok, type Said, said } from '../said.js';
import { exactInterval, type Interval, wilson } from './interval.js';

/** A share of whole things, or a bare share from 0 to 1 when the counts are not known. */
export type Share = number | { readonly hits: number; readonly of: number };

export interface Accuracy {
  readonly sensitivity: Share;
  readonly specificity: Share;
}

export interface Prediction {
  /** Of animals with a positive test, the share that is infected; null when no test would be positive. */
  readonly ppv: number | null;
  /** Of animals with a negative test, the share that is not infected; null when no test would be negative. */
  readonly npv: number | null;
  /** The same at the ends of the intervals of what was given as counts; null when nothing was. */
  readonly range: { readonly ppv: Ends; readonly npv: Ends; readonly method: Interval['method'] } | null;
  /** Whole animals, because shares are misread: of 100 positives so many are infected. */
  readonly ofHundredPositives: number | null;
  readonly ofHundredNegativesInfected: number | null;
  readonly words: readonly Said[];
}
export interface Ends {
  readonly low: number | null;
  readonly high: number | null;
}

const isShare = (value: number): boolean => Number.isFinite(value) && value >= 0 && value <= 1;
const point = (share: Share): number => (typeof share === 'number' ? share : share.hits / share.of);
const hasCounts = (share: Share): boolean => typeof share !== 'number';

/** The ends of a share's interval; a bare share has both ends at itself. */
function ends(share: Share, method: Interval['method']): { low: number; high: number } {
  if (typeof share === 'number') return { low: share, high: share };
  return method === 'wilson' ? wilson(share.hits, share.of) : exactInterval(share.hits, share.of);
}

function problem(name: string, share: Share): Outcome<never> | null {
  if (typeof share === 'number') return isShare(share) ? null : no('test.share-out-of-range', { name });
  const { hits, of } = share;
  const whole = Number.isInteger(hits) && Number.isInteger(of) && of >= 1 && hits >= 0 && hits <= of;
  return whole ? null : no('test.counts-impossible', { name, hits, of });
}

const positivePredictive = (sensitivity: number, specificity: number, prior: number): number | null =>
  share(sensitivity * prior, (1 - specificity) * (1 - prior));
const negativePredictive = (sensitivity: number, specificity: number, prior: number): number | null =>
  share(specificity * (1 - prior), (1 - sensitivity) * prior);
/** One part of two; null when both are nothing. */
const share = (part: number, other: number): number | null => (part + other === 0 ? null : part / (part + other));

/**
 * Predictive values by Bayes' rule from sensitivity, specificity and prevalence, with a range when any of them is given
 * as counts: worst and best ends taken together, so that a perfect study never reads as certainty.
 */
export function predict(
  accuracy: Accuracy,
  prevalence: Share,
  method: Interval['method'] = 'wilson',
): Outcome<Prediction> {
  const wrong =
    problem('sensitivity', accuracy.sensitivity) ??
    problem('specificity', accuracy.specificity) ??
    problem('prevalence', prevalence);
  if (wrong !== null) return wrong;
  const [sens, spec, prior] = [accuracy.sensitivity, accuracy.specificity, prevalence];
  const ppv = positivePredictive(point(sens), point(spec), point(prior));
  const npv = negativePredictive(point(sens), point(spec), point(prior));
  const [se, sp, pr] = [ends(sens, method), ends(spec, method), ends(prior, method)];
  const range = [sens, spec, prior].some(hasCounts)
    ? {
        ppv: {
          low: positivePredictive(se.low, sp.low, pr.low),
          high: positivePredictive(se.high, sp.high, pr.high),
        },
        npv: {
          low: negativePredictive(se.low, sp.low, pr.high),
          high: negativePredictive(se.high, sp.high, pr.low),
        },
        method,
      }
    : null;
  const ofHundredPositives = ppv === null ? null : Math.round(ppv * 100);
  const ofHundredNegativesInfected = npv === null ? null : Math.round((1 - npv) * 100);
  return ok({
    ppv,
    npv,
    range,
    ofHundredPositives,
    ofHundredNegativesInfected,
    words: words(ppv, npv, range),
  });
}

function words(ppv: number | null, npv: number | null, range: Prediction['range']): Said[] {
  const out: Said[] = [];
  if (ppv !== null) {
    const infected = Math.round(ppv * 100);
    out.push(said('test.of-hundred-positives', { infected, not: 100 - infected }));
  }
  if (npv !== null) {
    const rest = 1 - npv;
    // Under 1 in 100 a whole number would read as never.
    out.push(
      rest >= 0.005
        ? said('test.of-hundred-negatives', { infected: Math.round(rest * 100) })
        : said('test.of-ten-thousand-negatives', { infected: Math.round(rest * 10_000) }),
    );
  }
  if (range !== null && range.ppv.low !== null && range.ppv.high !== null) {
    const values = { low: Math.round(range.ppv.low * 100), high: Math.round(range.ppv.high * 100) };
    out.push(said(range.method === 'wilson' ? 'test.range-wilson' : 'test.range-exact', values));
  }
  out.push(said('test.medical-team-decides'));
  return out;
}

export interface TestSeen extends Accuracy {
  readonly seen: 'positive' | 'negative';
}

/**
 * Probability of infection after each of several tests in turn, as if their errors were independent; they seldom are
 * (same antigen, same tube), which the second value says. Null once the results contradict perfect accuracies.
 */
export function chain(prior: number, tests: readonly TestSeen[]): Outcome<{ after: (number | null)[]; caution: Said }> {
  if (!isShare(prior)) return no('test.share-out-of-range', { name: 'prevalence' });
  const after: (number | null)[] = [];
  let now: number | null = prior;
  for (const test of tests) {
    const wrong = problem('sensitivity', test.sensitivity) ?? problem('specificity', test.specificity);
    if (wrong !== null) return wrong;
    now = now === null ? null : posterior(now, test);
    after.push(now);
  }
  return ok({ after, caution: said('test.chain-not-independent') });
}

function posterior(prior: number, test: TestSeen): number | null {
  const [sens, spec] = [point(test.sensitivity), point(test.specificity)];
  return test.seen === 'positive'
    ? share(sens * prior, (1 - spec) * (1 - prior))
    : share((1 - sens) * prior, spec * (1 - prior));
}

export interface TwoByTwo {
  readonly truePositive: number;
  readonly falseNegative: number;
  readonly falsePositive: number;
  readonly trueNegative: number;
}

export interface Measured {
  readonly share: number;
  readonly wilson: Interval;
  readonly exact: Interval;
}

const measured = (hits: number, of: number): Measured | null =>
  of === 0 ? null : { share: hits / of, wilson: wilson(hits, of), exact: exactInterval(hits, of) };

/** Accuracy of a test against a standard, with both intervals; a part without any animals is null. */
export function accuracyOf(table: TwoByTwo): {
  readonly sensitivity: Measured | null;
  readonly specificity: Measured | null;
  readonly ppv: Measured | null;
  readonly npv: Measured | null;
} {
  const { truePositive, falseNegative, falsePositive, trueNegative } = table;
  return {
    sensitivity: measured(truePositive, truePositive + falseNegative),
    specificity: measured(trueNegative, trueNegative + falsePositive),
    ppv: measured(truePositive, truePositive + falsePositive),
    npv: measured(trueNegative, trueNegative + falseNegative),
  };
}
