import { Temporal } from 'temporal-polyfill';
import type { BloodRules } from '../dosing/measuring.js';
import { exactly } from '../quantity/exact.js';
import { type Said, said } from '../said.js';

/**
 * How much blood a cat holds and may lose stands in the signed formulary, with its source. The widely printed "1 percent
 * of body weight" is 18 percent of a cat's blood and is not used.
 */

export interface BloodLimit {
  readonly days: number;
  /** Whole microlitres, rounded down. */
  readonly limit_ul: number;
  readonly drawn_ul: number;
  readonly left_ul: number;
}

export interface BloodAllowance {
  readonly total_ul: number;
  readonly limits: readonly BloodLimit[];
  /** The least that is left under any limit. */
  readonly left_ul: number;
}

export interface Draw {
  readonly at: string;
  /** Failed and clotted draws count too. */
  readonly volume_ul: number;
}

/** Longest that any draw is looked back for, days: nothing older counts under any limit. */
export const lookBackDays = (rules: Pick<BloodRules, 'limits'>): number =>
  Math.max(...rules.limits.map((limit) => limit.days));

/**
 * What may still be drawn from an animal now, whole microlitres, from its weight in grams and its draws, failed ones
 * too. A draw counts for exactly so many times 24 hours. `ill`: the animal is taken to have less blood by the share the
 * document states.
 */
export function bloodAllowance(
  grams: number,
  draws: readonly Draw[],
  now: string,
  rules: BloodRules,
  ill = false,
): BloodAllowance {
  const whole = exactly(grams).mul(rules.ul_per_g);
  const total = ill ? whole.mul(exactly(100).sub(rules.lessWhenIllPercent)).div(100) : whole;
  const current = Temporal.Instant.from(now);
  const limits = rules.limits.map(({ days, percent }) => {
    const since = current.subtract({ hours: days * 24 });
    const drawn_ul = draws
      .filter((draw) => Temporal.Instant.compare(Temporal.Instant.from(draw.at), since) > 0)
      .reduce((sum, draw) => sum + draw.volume_ul, 0);
    const limit_ul = total.mul(percent).div(100).floor().toNumber();
    return { days, limit_ul, drawn_ul, left_ul: Math.max(0, limit_ul - drawn_ul) };
  });
  return { total_ul: total.floor().toNumber(), limits, left_ul: Math.min(...limits.map((limit) => limit.left_ul)) };
}

/** Why a draw of this size is too much now, or null. */
export function tooMuchBlood(wanted_ul: number, allowance: BloodAllowance): Said | null {
  const passed = allowance.limits.find((limit) => wanted_ul > limit.left_ul);
  if (passed === undefined) return null;
  return said('test.blood-too-much', {
    wanted: { microlitres: wanted_ul },
    days: passed.days,
    limit: { microlitres: passed.limit_ul },
    drawn: { microlitres: passed.drawn_ul },
  });
}
