import { usualWeightTable } from '../core/growth/weight-tables.js';
import type { Chance } from './chance.js';

/** How one invented animal grows: a share of the usual table while a kitten, then towards its adult weight. */
export interface Build {
  /** 1 is the middle of the table. */
  readonly size: number;
  readonly adult_g: number;
}

/**
 * The weight an animal of this age would have, grams. To the end of the usual kitten table (12 weeks) the middle of its
 * bands, a straight line between them; then about 100 g a week, slower from 5 months, to the adult weight at most.
 * About 100 g a week: Small Animal Clinical Nutrition, 5th ed., table 23-5. The slowing after it is invented.
 */
export function expectedGrams(ageDays: number, build: Build): number {
  const rows = usualWeightTable.rows;
  const last = rows.at(-1);
  if (last === undefined || ageDays <= last.ageDays) return build.size * middleAt(ageDays);
  const afterTable = ageDays - last.ageDays;
  const fast = Math.min(afterTable, 66) * 14;
  const slow = Math.max(0, afterTable - 66) * 5;
  return Math.min(build.adult_g, build.size * middleAt(last.ageDays) + fast + slow);
}

function middleAt(ageDays: number): number {
  const rows = usualWeightTable.rows;
  const after = rows.findIndex((row) => row.ageDays >= ageDays);
  const upper = rows[after] ?? rows.at(-1);
  const lower = rows[Math.max(0, after - 1)] ?? upper;
  if (upper === undefined || lower === undefined) return 0;
  const [low, high] = [(lower.from_g + lower.to_g) / 2, (upper.from_g + upper.to_g) / 2];
  const span = upper.ageDays - lower.ageDays;
  return span === 0 ? high : low + ((high - low) * (ageDays - lower.ageDays)) / span;
}

/** What the scale shows: a full or empty stomach and a restless cat make up to 0.4 percent; adults are read to 10 g. */
export function scaleShows(ageDays: number, build: Build, chance: Chance): number {
  const grams = expectedGrams(ageDays, build) * (1 + chance.between(-0.004, 0.004));
  return grams >= 2000 ? Math.round(grams / 10) * 10 : Math.round(grams);
}
