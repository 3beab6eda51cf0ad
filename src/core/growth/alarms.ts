import { epochMs } from '../calendar.js';
import { exactly } from '../quantity/exact.js';
import { writeNumber } from '../quantity/write.js';
import { type Said, said } from '../said.js';
import { gainBetween, hoursBetween, type TimedWeight } from './gain.js';
import type { WeightRule } from './watch.js';

export type GrowthCode = 'loss' | 'no-gain' | 'slow-gain' | 'birth-weight-not-doubled';

export interface GrowthAlarm {
  readonly code: GrowthCode;
  readonly severity: 'stop' | 'attention';
  readonly why: Said;
  /** Instant of the weighing that raised it. */
  readonly at: string;
}

export interface GrowthQuestion {
  /** Weighings in any order; doubtful ones are left out. */
  readonly weighings: readonly (TimedWeight & { readonly doubtful?: boolean })[];
  /** Age in days at the last weighing, the youngest it may be; null when nothing is known. */
  readonly ageDays: number | null;
  /** What is told at that age (`rulesFor`). */
  readonly rules: readonly WeightRule[];
}

/** Hours from which on a time is said in days. */
const inDays_h = 48;

/**
 * What to raise to a person from the weight curve at its last weighing: of losses, weights without gain and slow gains the
 * gravest one, of equally grave ones that of which most was lost, then the first of the rules; and a birth weight that has not
 * doubled. Times are real hours, shares exact.
 */
export function growthAlarms({ weighings, ageDays, rules }: GrowthQuestion): GrowthAlarm[] {
  const points = inOrder(weighings.filter((one) => one.doubtful !== true));
  const last = points.at(-1);
  if (last === undefined) return [];
  const found = rules.flatMap((rule) => {
    const raised = raisedBy(rule, points, last, ageDays);
    return raised === null ? [] : [{ is: rule.is, ...raised }];
  });
  const worst = found
    .filter(({ is }) => is !== 'not-doubled')
    .reduce<(typeof found)[number] | null>((most, one) => (most === null || isGraver(one, most) ? one : most), null);
  return [worst, found.find(({ is }) => is === 'not-doubled') ?? null].flatMap((one) =>
    one === null ? [] : [one.alarm],
  );
}

interface Raised {
  readonly alarm: GrowthAlarm;
  /** Grams under what it was held against. */
  readonly lost_g: number;
}

const isGraver = (one: Raised, other: Raised): boolean =>
  one.alarm.severity === other.alarm.severity ? one.lost_g > other.lost_g : one.alarm.severity === 'stop';

function raisedBy(
  rule: WeightRule,
  points: readonly TimedWeight[],
  last: TimedWeight,
  ageDays: number | null,
): Raised | null {
  const grave = rule.severity === 'stop' ? 'yes' : 'no';
  switch (rule.is) {
    case 'loss': {
      const from = highestWithin(points, rule.within_h, last);
      const most = exactly(from.grams)
        .mul(exactly(100).sub(exactly(rule.percent)))
        .div(100);
      if (last.grams >= from.grams || exactly(last.grams).gt(most)) return null;
      const percent = writeNumber(
        exactly(from.grams - last.grams)
          .div(from.grams)
          .mul(100),
        1,
      );
      return lossOf(rule, from, last, said('growth.loss', { percent, grave, ...between(from, last) }));
    }
    case 'no-gain': {
      const from = points.findLast((one) => isOld(one, last, rule.least_h, rule.most_h));
      if (from === undefined || last.grams > from.grams) return null;
      return lossOf(rule, from, last, said('growth.no-gain', { grave, ...between(from, last) }));
    }
    case 'slow-gain': {
      const from = points.findLast((one) => isOld(one, last, rule.least_h));
      const gain = from === undefined ? null : gainBetween(from, last);
      if (from === undefined || gain === null || gain.grams <= 0 || exactly(gain.gramsPerDay).gte(rule.perDay_g))
        return null;
      const perDay = writeNumber(exactly(gain.gramsPerDay), 1);
      return lossOf(
        rule,
        from,
        last,
        said('growth.slow-gain', { perDay, least: rule.perDay_g, ...between(from, last) }),
      );
    }
    case 'not-doubled': {
      const [first] = points;
      if (first === undefined || ageDays === null || ageDays < rule.fromDay) return null;
      if (ageDays - hoursBetween(first.at, last.at) / 24 > 1 || last.grams >= 2 * first.grams) return null;
      const values = { from: { grams: first.grams }, to: { grams: last.grams }, age: { ageDays } };
      return lossOf(rule, last, last, said('growth.birth-weight-not-doubled', values));
    }
  }
}

const codes = {
  loss: 'loss',
  'no-gain': 'no-gain',
  'slow-gain': 'slow-gain',
  'not-doubled': 'birth-weight-not-doubled',
} as const satisfies Record<WeightRule['is'], GrowthCode>;

const lossOf = ({ is, severity }: WeightRule, from: TimedWeight, { at, grams }: TimedWeight, why: Said): Raised => ({
  alarm: { code: codes[is], severity, why, at },
  lost_g: from.grams - grams,
});

/** Two weights and the time between them, in the unit in which it is said. */
function between(from: TimedWeight, to: TimedWeight) {
  const hours = hoursBetween(from.at, to.at);
  const days = hours >= inDays_h;
  return {
    from: { grams: from.grams },
    to: { grams: to.grams },
    unit: days ? 'days' : 'hours',
    time: Math.round(days ? hours / 24 : hours),
  } as const;
}

const isOld = (one: TimedWeight, last: TimedWeight, least_h: number, most_h = Number.POSITIVE_INFINITY): boolean => {
  const hours = hoursBetween(one.at, last.at);
  return hours >= least_h && hours <= most_h;
};

/** The highest of the weights of the hours before another one; of equal ones the first, itself where none is higher. */
function highestWithin(points: readonly TimedWeight[], hours: number, to: TimedWeight): TimedWeight {
  const outside = points.findLastIndex((one) => hoursBetween(one.at, to.at) > hours);
  return points.slice(outside + 1).reduce((most, one) => (one.grams > most.grams ? one : most), to);
}

/** In the order of time. Instants as devices write them sort as texts do. */
function inOrder(weighings: readonly TimedWeight[]): readonly TimedWeight[] {
  const isSorted = weighings.every(({ at }, n) => at.length === 24 && at >= (weighings[n - 1]?.at ?? ''));
  return isSorted ? weighings : [...weighings].sort((a, b) => epochMs(a.at) - epochMs(b.at));
}
