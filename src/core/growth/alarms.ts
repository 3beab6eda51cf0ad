import { epochMs } from '../calendar.js';
import { exactly } from '../quantity/exact.js';
import { writeNumber } from '../quantity/write.js';
import { type Given, type Said, said } from '../said.js';
import { expectedGain, gainBetween, gainUntilDays, hoursBetween, type TimedWeight } from './gain.js';

export type GrowthCode =
  | 'newborn-no-gain'
  | 'loss'
  | 'loss-tenth'
  | 'loss-week'
  | 'loss-month'
  | 'no-gain-week'
  | 'no-gain'
  | 'slow-gain'
  | 'birth-weight-not-doubled';

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
}

/** Two weighings closer than this say more about the last meal than about growth (ours). */
const closest_h = 12;
/** A loss is looked for over this long a time; a weight lost and not regained in it raises the alarm. */
const lossWindow_h = 72;
/** While a cat grows fast, a loss is looked for over a week: half a tenth asks for a look (our choice, no source). */
const growingUntilDays = 140;
const growingWindow_h = 168;
/**
 * A slow loss, at any age, against the highest weight of this time: a tenth, the class by which losses of cats in shelters
 * were counted (Tanaka et al. 2012). That a tenth is an alarm, and the 30 days, are our choice.
 */
const slowWindow_h = 720;
/**
 * From weaning to 20 weeks a kitten gains 50 to 100 g a week (Little 2007); one that weighs no more than it did so long
 * ago is looked at. The days are our choice.
 */
const gainless_h = { least: 144, most: 504 } as const;

/**
 * What to raise to a person from the weight curve. Young kittens (to 8 weeks): no gain or loss up to day 2; under 7 grams
 * a day over the last day or two; birth weight not doubled by day 9. Any age: loss against the last weighing, and a loss
 * of a tenth against the highest weight of the last 72 hours, which stops; under 20 weeks over the last 7 days, where a
 * twentieth asks for a look (these days and shares are our choice, no source), and so does no gain since a weighing of 6
 * to 21 days before. At any age a tenth under the highest weight of 30 days, lost slowly. Rates use the real hours. Sources: Small
 * Animal Clinical Nutrition table 23-5; Front Vet Sci 2024 (5504 kittens); two consumer summaries of breeder references.
 */
export function growthAlarms(question: GrowthQuestion): GrowthAlarm[] {
  const points = inOrder(question.weighings.filter((one) => one.doubtful !== true));
  const last = points.at(-1);
  if (last === undefined) return [];
  const before = points.findLast((one) => hoursBetween(one.at, last.at) >= closest_h);
  const alarms = [
    before === undefined ? null : change(before, last, question.ageDays),
    notDoubled(points, last, question.ageDays),
  ];
  return alarms.filter((alarm) => alarm !== null);

  function change(from: TimedWeight, to: TimedWeight, ageDays: number | null): GrowthAlarm | null {
    const growing = ageDays !== null && ageDays < growingUntilDays;
    const highest = highestWithin(growing ? growingWindow_h : lossWindow_h, to, from);
    const tenth = lossOf(highest, to, 'loss-tenth');
    if (tenth !== null && exactly(to.grams).lte(exactly(highest.grams).mul('0.9'))) return tenth;
    const newborn = ageDays !== null && ageDays <= 2 && to.grams <= from.grams;
    if (newborn) return raise('newborn-no-gain', 'stop', to, { from: { grams: from.grams }, to: { grams: to.grams } });
    const young = ageDays === null ? null : expectedGain(ageDays);
    const loss = lossOf(from, to, 'loss');
    if (loss !== null && young !== null) return loss;
    const week = growing && exactly(to.grams).lte(exactly(highest.grams).mul('0.95'));
    if (week) return lossOf(highest, to, 'loss-week');
    const slow = slowLoss(to);
    if (slow !== null) return slow;
    const gainless = growing && young === null ? noGainSince(longAgo(to), to) : null;
    if (gainless !== null) return gainless;
    if (loss !== null) return loss;
    const gain = young === null ? null : gainBetween(from, to);
    if (young === null || gain === null) return null;
    const values = {
      from: { grams: from.grams },
      to: { grams: to.grams },
      hours: Math.round(gain.hours),
      perDay: writeNumber(gain.gramsPerDay, 1),
      least: young.least,
    };
    if (gain.grams === 0) return raise('no-gain', 'attention', to, values);
    return exactly(gain.gramsPerDay).lt(young.least) ? raise('slow-gain', 'attention', to, values) : null;
  }

  /** The highest of the weights of the hours before another one; `least` where none is higher. */
  function highestWithin(hours: number, to: TimedWeight, least: TimedWeight): TimedWeight {
    const outside = points.findLastIndex((one) => hoursBetween(one.at, to.at) > hours);
    return points.slice(outside + 1).reduce((most, one) => (one.grams > most.grams ? one : most), least);
  }

  function slowLoss(to: TimedWeight): GrowthAlarm | null {
    const highest = highestWithin(slowWindow_h, to, to);
    const slow = lossOf(highest, to, 'loss-month');
    return slow !== null && exactly(to.grams).lte(exactly(highest.grams).mul('0.9')) ? slow : null;
  }

  /** The last weighing that is old enough for a kitten to have gained since. */
  function longAgo(to: TimedWeight): TimedWeight | undefined {
    return points.findLast(({ at }) => {
      const hours = hoursBetween(at, to.at);
      return hours >= gainless_h.least && hours <= gainless_h.most;
    });
  }
}

/** In the order of time. Instants as devices write them sort as texts do. */
function inOrder(weighings: readonly TimedWeight[]): readonly TimedWeight[] {
  const isSorted = weighings.every(({ at }, n) => at.length === 24 && at >= (weighings[n - 1]?.at ?? ''));
  return isSorted ? weighings : [...weighings].sort((a, b) => epochMs(a.at) - epochMs(b.at));
}

function noGainSince(before: TimedWeight | undefined, to: TimedWeight): GrowthAlarm | null {
  if (before === undefined || to.grams > before.grams) return null;
  const days = Math.round(hoursBetween(before.at, to.at) / 24);
  return raise('no-gain-week', 'attention', to, { from: { grams: before.grams }, to: { grams: to.grams }, days });
}

type Loss = 'loss' | 'loss-tenth' | 'loss-week' | 'loss-month';

function lossOf(from: TimedWeight, to: TimedWeight, code: Loss): GrowthAlarm | null {
  if (to.grams >= from.grams) return null;
  const gain = gainBetween(from, to);
  if (gain === null) return null;
  return raise(code, code === 'loss-tenth' ? 'stop' : 'attention', to, {
    from: { grams: from.grams },
    to: { grams: to.grams },
    percent: writeNumber(exactly(gain.percent).abs(), 1),
    hours: Math.round(gain.hours),
    days: Math.round(gain.hours / 24),
  });
}

/** A kitten doubles its birth weight in 7 to 9 days; asked only when it was weighed on its first day. */
function notDoubled(points: readonly TimedWeight[], last: TimedWeight, ageDays: number | null): GrowthAlarm | null {
  if (ageDays === null || ageDays < 9 || ageDays >= gainUntilDays) return null;
  const first = points[0];
  if (first === undefined || ageDays - hoursBetween(first.at, last.at) / 24 > 1) return null;
  if (last.grams >= 2 * first.grams) return null;
  return raise('birth-weight-not-doubled', 'attention', last, {
    from: { grams: first.grams },
    to: { grams: last.grams },
    age: { ageDays },
  });
}

const raise = <C extends GrowthCode>(
  code: C,
  severity: GrowthAlarm['severity'],
  at: TimedWeight,
  ...values: Given<`growth.${C}`>
): GrowthAlarm => ({ code, severity, why: said(`growth.${code}`, ...values), at: at.at });
