/** A share with its interval. The method is always named: Wilson and exact differ. */
export interface Interval {
  readonly low: number;
  readonly high: number;
  readonly method: 'wilson' | 'exact';
}

/** 97.5th percentile of the standard normal distribution: two-sided 95 percent. */
const z95 = 1.959963984540054;

function assertCounts(hits: number, of: number): void {
  if (!Number.isInteger(hits) || !Number.isInteger(of) || hits < 0 || of < 1 || hits > of) {
    throw new RangeError(`${hits} of ${of} is not a share of whole things`);
  }
}

/** 95 percent score interval of Wilson (1927) for `hits` of `of`. Throws RangeError on impossible counts. */
export function wilson(hits: number, of: number): Interval {
  assertCounts(hits, of);
  const share = hits / of;
  const zz = z95 * z95;
  const middle = share + zz / (2 * of);
  const half = z95 * Math.sqrt((share * (1 - share)) / of + zz / (4 * of * of));
  const scale = 1 + zz / of;
  return {
    low: hits === 0 ? 0 : (middle - half) / scale,
    high: hits === of ? 1 : (middle + half) / scale,
    method: 'wilson',
  };
}

/**
 * 95 percent exact interval of Clopper and Pearson (1934) for `hits` of `of`: the shares at which so many hits or more,
 * or so many or fewer, would happen 2.5 percent of the time. Throws RangeError on impossible counts.
 */
export function exactInterval(hits: number, of: number): Interval {
  assertCounts(hits, of);
  const low = hits === 0 ? 0 : bisect((share) => incompleteBeta(share, hits, of - hits + 1) - 0.025);
  const high = hits === of ? 1 : bisect((share) => incompleteBeta(share, hits + 1, of - hits) - 0.975);
  return { low, high, method: 'exact' };
}

/** Root of a rising function on 0 to 1, to the last bits of a double. */
function bisect(f: (x: number) => number): number {
  let low = 0;
  let high = 1;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Regularised incomplete beta function I_x(a, b) for a, b > 0, by its continued fraction (DLMF 8.17.22), evaluated with
 * the modified Lentz method; the symmetry I_x(a, b) = 1 - I_(1-x)(b, a) keeps it on its fast side.
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x)) / a;
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / guard(1 - ((a + b) * x) / (a + 1), tiny);
  let sum = d;
  for (let m = 1; m <= 1000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / guard(1 + even * d, tiny);
    c = guard(1 + even / c, tiny);
    sum *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / guard(1 + odd * d, tiny);
    c = guard(1 + odd / c, tiny);
    const factor = d * c;
    sum *= factor;
    if (Math.abs(factor - 1) < 1e-15) break;
  }
  return front * sum;
}

const guard = (value: number, tiny: number): number => (Math.abs(value) < tiny ? tiny : value);

/** Natural logarithm of the gamma function for x > 0: Stirling series (DLMF 5.11.1) after shifting x above 10. */
function logGamma(x: number): number {
  let shift = 0;
  let at = x;
  while (at < 10) {
    shift += Math.log(at);
    at += 1;
  }
  const inverse = 1 / at;
  const square = inverse * inverse;
  const series = inverse * (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square * (1 / 1680 - square / 1188))));
  return (at - 0.5) * Math.log(at) - at + Math.log(2 * Math.PI) / 2 + series - shift;
}
