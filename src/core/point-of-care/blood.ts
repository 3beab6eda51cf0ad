import { Temporal } from 'temporal-polyfill';
import { exactly } from '../quantity/exact.js';
import { type Said, said } from '../said.js';

/**
 * Cat blood volume and how much of it may be drawn, with the days of recovery each share needs. Source: Medical
 * University of South Carolina, animal care committee, sampling guidelines (56 mL per kg, range 47 to 66; weekly 7.5
 * percent, two-weekly 10, single 15 with 30 days, here 28). Young, old and ill animals stand less. The widely printed
 * "1 percent of body weight" is 18 percent of a cat's blood and is not used.
 */
export const catBlood = {
  ulPerGram: 56,
  limits: [
    { days: 7, percent: '7.5' },
    { days: 14, percent: '10' },
    { days: 28, percent: '15' },
  ],
} as const;

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

/** What may still be drawn from an animal now, from its weight in grams and the draws of the last 28 days. */
export function bloodAllowance(grams: number, draws: readonly Draw[], now: string): BloodAllowance {
  const total = exactly(grams).mul(catBlood.ulPerGram);
  const current = Temporal.Instant.from(now);
  const limits = catBlood.limits.map(({ days, percent }) => {
    const since = current.subtract({ hours: days * 24 });
    const drawn_ul = draws
      .filter((draw) => Temporal.Instant.compare(Temporal.Instant.from(draw.at), since) > 0)
      .reduce((sum, draw) => sum + draw.volume_ul, 0);
    const limit_ul = total.mul(percent).div(100).floor().toNumber();
    return { days, limit_ul, drawn_ul, left_ul: Math.max(0, limit_ul - drawn_ul) };
  });
  return { total_ul: total.toNumber(), limits, left_ul: Math.min(...limits.map((limit) => limit.left_ul)) };
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
