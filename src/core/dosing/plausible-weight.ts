import { believable } from '../growth/weight-tables.js';
import { exactly } from '../quantity/exact.js';
import { gramsIn } from '../quantity/units.js';
import { writeNumber } from '../quantity/write.js';
import { type Said, said } from '../said.js';

export type WeightCheck = { readonly doubtful: false } | { readonly doubtful: true; readonly why: Said };

export interface WhatIsKnown {
  /**
   * The last believed weighing and how many days ago it was, fractions allowed; null when there is none. `vouched`: it
   * was proved, so that one which follows it is held against it and not against the age.
   */
  readonly last: { readonly grams: number; readonly daysAgo: number; readonly vouched?: true } | null;
  /** Age of the animal now; null when nothing is known of it. */
  readonly ageDays: { readonly youngest: number; readonly oldest: number } | null;
}

/**
 * How far a weight may be from the last one, percent in a week; longer times in proportion, shorter ones get the whole
 * week's (a scale and a full stomach make more than a day's change). Ours; from 4 weeks on it is +25 and -15. Younger
 * kittens double in 7 to 9 days after birth, so that +25 would ring for every healthy one.
 */
const weeklyChange = [
  { underAgeDays: 7, up: 150, down: 15 },
  { underAgeDays: 28, up: 100, down: 15 },
  { underAgeDays: Number.POSITIVE_INFINITY, up: 25, down: 15 },
] as const;

/**
 * More than this no kitten gains, under 20 weeks of age: 30 g a day, twice the most that is published (10 to 15 g: Little
 * 2007; about 100 g a week: Small Animal Clinical Nutrition, table 23-5), and a tenth of its weight for a meal, fluids
 * and the scale. Doubling the figure, the tenth and the 20 weeks are ours.
 */
const quickestGain = { underAgeDays: 140, atOnce_percent: 10, perDay_g: 30 } as const;

const fine: WeightCheck = { doubtful: false };
const doubt = (why: Said): WeightCheck => ({ doubtful: true, why });

/**
 * Whether a weight fits what is known of the animal. Doubtful means: weigh again, an OK is not enough. The sentence
 * names the slip it looks like (pounds for kilograms, a factor of ten) when one explains it.
 */
export function plausibleWeight(grams: number, known: WhatIsKnown): WeightCheck {
  const { last } = known;
  const own = againstLast(grams, known) ?? againstQuickest(grams, known);
  return own ?? (last?.vouched === true ? fine : (againstAge(grams, known) ?? fine));
}

/** Why no cat of that age weighs so much, or so little, as a doubt that weighing again on one scale does not settle. */
export function beyondAge(grams: number, { ageDays, last }: WhatIsKnown): WeightCheck | null {
  if (ageDays === null || last?.vouched === true) return null;
  const range = believable(ageDays);
  if (grams >= range.from_g && grams <= range.to_g) return null;
  const values = { weight: { grams }, age: { ageDays: Math.max(0, ageDays.youngest) } };
  return doubt(said('dose.weight-beyond-age', values));
}

/**
 * What two readings of one scale do not prove: half as much again as the last weight of the past 60 days (a kitten's gain
 * of 30 g a day besides), or two thirds of it. Ours.
 */
const unproved = { factor: '1.5', withinDays: 60 } as const;

/** Why a weight is too far from the last one, as a doubt that weighing again on one scale does not settle. */
export function beyondJump(grams: number, { ageDays, last }: WhatIsKnown): WeightCheck | null {
  // One that lies ahead is no earlier weight.
  if (last === null || last.daysAgo < -0.01 || last.daysAgo > unproved.withinDays) return null;
  const isYoung = (ageDays?.youngest ?? 0) < quickestGain.underAgeDays;
  const gain = isYoung ? exactly(quickestGain.perDay_g).mul(exactly(Math.max(0, last.daysAgo))) : exactly(0);
  const most = exactly(last.grams).add(gain).mul(unproved.factor);
  if (most.gte(grams) && exactly(grams).mul(unproved.factor).gte(last.grams)) return null;
  return doubt(
    said('dose.weight-beyond-jump', {
      weight: { grams },
      last: { grams: last.grams },
      days: Math.round(last.daysAgo),
    }),
  );
}

function againstQuickest(grams: number, { last, ageDays }: WhatIsKnown): WeightCheck | null {
  if (last === null || ageDays === null || ageDays.youngest >= quickestGain.underAgeDays) return null;
  const most = exactly(last.grams)
    .mul(100 + quickestGain.atOnce_percent)
    .div(100)
    .add(exactly(quickestGain.perDay_g).mul(exactly(Math.max(0, last.daysAgo))));
  if (most.gte(grams)) return null;
  const gain = { grams: grams - last.grams };
  const values = { weight: { grams }, last: { grams: last.grams }, gain, days: Math.round(last.daysAgo) };
  return doubt(said('dose.weight-gain-too-fast', values));
}

function againstLast(grams: number, known: WhatIsKnown): WeightCheck | null {
  if (known.last === null) return null;
  const { last } = known;
  const age = known.ageDays?.youngest ?? Number.POSITIVE_INFINITY;
  const limit = weeklyChange.find((row) => age < row.underAgeDays) ?? weeklyChange[2];
  const weeks = Math.max(1, last.daysAgo / 7);
  if (isWellWithin(((grams - last.grams) / last.grams) * 100, -limit.down * weeks, limit.up * weeks)) return null;
  const change = exactly(grams).sub(last.grams).div(last.grams).mul(100);
  if (change.lte(exactly(limit.up).mul(weeks)) && change.gte(exactly(-limit.down).mul(weeks))) return null;
  const values = {
    weight: { grams },
    last: { grams: last.grams },
    percent: writeNumber(change.abs(), 0),
    days: Math.round(last.daysAgo),
  };
  const slip = slipBetween(grams, last.grams);
  if (slip !== null) return doubt(said(slip, values));
  return doubt(said(change.isPositive() ? 'dose.weight-jump-up' : 'dose.weight-jump-down', values));
}

/** Clear of both ends by more than plain numbers can be wrong; nearer than that they are compared exactly. */
const isWellWithin = (percent: number, from: number, to: number): boolean =>
  percent > from + 0.001 && percent < to - 0.001;

function againstAge(grams: number, known: WhatIsKnown): WeightCheck | null {
  if (known.ageDays === null) return null;
  const range = believable(known.ageDays);
  if (grams >= range.from_g && grams <= range.to_g) return null;
  return doubt(
    said(grams < range.from_g ? 'dose.weight-low-for-age' : 'dose.weight-high-for-age', {
      weight: { grams },
      age: { ageDays: Math.max(0, known.ageDays.youngest) },
      from: { grams: range.from_g },
      to: { grams: range.to_g },
    }),
  );
}

/** Key of the sentence for a known slip that turns the last weight into this one within 15 percent, or null. */
function slipBetween(grams: number, last: number): 'dose.weight-jump-pounds' | 'dose.weight-jump-tenfold' | null {
  const near = (factor: ReturnType<typeof exactly>): boolean =>
    exactly(grams).div(last).div(factor).sub(1).abs().lte('0.15');
  const pounds = exactly(1000).div(gramsIn.lb);
  if (near(pounds) || near(exactly(1).div(pounds))) return 'dose.weight-jump-pounds';
  if (near(exactly(10)) || near(exactly(1).div(10))) return 'dose.weight-jump-tenfold';
  return null;
}
