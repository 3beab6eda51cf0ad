import type { Decimal } from 'decimal.js';
import { derived } from '../derived.js';
import { certainText, exactly, nearly, plain, quotientText } from '../quantity/exact.js';
import type { Syringe } from './formulary.js';
import type { Instrument } from './measuring.js';

/** How exact one drawn volume is; percent of the exact dose, plain text with at most two decimals. */
export interface Measuring {
  /** Most that a compliant syringe may be off at this volume, microlitres. */
  readonly tolerance_ul: string;
  readonly tolerancePercent: string;
  /** Rounding to the mark and tolerance of the syringe together, at their worst. */
  readonly combinedPercent: string;
  /** Left in the syringe and its needle after a full push, microlitres. */
  readonly deadSpace_ul: number;
  /** What rinsing or drawing back would make of the dose: 2.4 is two point four times. */
  readonly rinseTimes: string;
  /** Less than the share of the barrel that the document asks for. */
  readonly littleOfBarrel: boolean;
}

const rowFor = (capacity_ul: number, { rows }: Instrument): Instrument['rows'][number] | null =>
  [...rows].sort((a, b) => b.from_ul - a.from_ul).find((row) => capacity_ul >= row.from_ul) ?? null;

/**
 * Tolerance in exact microlitres of a volume expelled from a syringe of this capacity, or null when the document has
 * no row for it. Source of the form: ISO 7886-1:2017 clause 8 and its table 1, figures as the document gives them.
 */
export function toleranceOf(volume_ul: number | Decimal, capacity_ul: number, instrument: Instrument): Decimal | null {
  const row = rowFor(capacity_ul, instrument);
  if (row === null) return null;
  const volume = exactly(volume_ul);
  const capacity = exactly(capacity_ul);
  if (volume.mul(2).gte(capacity)) return volume.mul(row.fromHalfPercent).div(100);
  return capacity.mul(row.ofCapacityPercent).add(volume.mul(row.ofVolumePercent)).div(100);
}

/**
 * Microlitres that stay in a syringe and its needle: the syringe's own figure when it has one, else the most its
 * standard allows and, for injection, a detachable needle.
 */
export function deadSpaceOf(
  syringe: Pick<Syringe, 'capacity_ul' | 'deadSpace_ul' | 'routes'>,
  instrument: Instrument | null,
): number {
  if (syringe.deadSpace_ul !== null) return syringe.deadSpace_ul;
  if (instrument === null) return 0;
  const withNeedle = syringe.routes.some((route) => route === 'under the skin' || route === 'into muscle');
  return (rowFor(syringe.capacity_ul, instrument)?.deadSpace_ul ?? 0) + (withNeedle ? instrument.needle_ul : 0);
}

/** Least volume, exact microlitres, for which a syringe of this capacity is of a good size; null when nothing is said. */
export const leastFor = (capacity_ul: number, instrument: Instrument): Decimal | null =>
  instrument.leastOfBarrelPercent === null ? null : exactly(capacity_ul).mul(instrument.leastOfBarrelPercent).div(100);

/** How many times the dose goes in when the syringe is rinsed or drawn back once: (dose + dead space) / dose. */
export const rinsedTimes = (volume_ul: number, deadSpace_ul: number): Decimal =>
  exactly(volume_ul).add(deadSpace_ul).div(volume_ul);

/** Everything about how exact a drawn volume is against the exact one; null when the document names no tolerance. */
export function measuringOf(
  drawn_ul: number,
  exact_ul: Decimal,
  syringe: Syringe,
  instrument: Instrument | null,
): Measuring | null {
  if (instrument === null || drawn_ul === 0) return null;
  const mark = atMark(instrument, syringe, drawn_ul);
  if (mark === null) return null;
  // The rounding and the tolerance add up on one side of the exact dose; that side is the worst.
  const near = nearly(exact_ul);
  const about = certainText(((Math.abs(drawn_ul - near) + mark.near) / near) * 100, 2);
  const combinedPercent =
    about ?? quotientText(exactly(drawn_ul).sub(exact_ul).abs().add(mark.tolerance), exact_ul, 100, 2);
  return { ...mark.measuring, combinedPercent };
}

interface AtMark {
  readonly tolerance: Decimal;
  /** The same as a double. */
  readonly near: number;
  readonly measuring: Omit<Measuring, 'combinedPercent'>;
}
/** What does not depend on the exact dose: the same for every draw to one mark of one syringe. */
const atMark = derived((instrument: Instrument, syringe: Syringe, drawn_ul: number): AtMark | null => {
  const tolerance = toleranceOf(drawn_ul, syringe.capacity_ul, instrument);
  if (tolerance === null) return null;
  const deadSpace_ul = deadSpaceOf(syringe, instrument);
  return {
    tolerance,
    near: nearly(tolerance),
    measuring: {
      tolerance_ul: plain(tolerance, 3),
      tolerancePercent: plain(tolerance.mul(100).div(drawn_ul), 2),
      deadSpace_ul,
      rinseTimes: plain(rinsedTimes(drawn_ul, deadSpace_ul), 2),
      littleOfBarrel: leastFor(syringe.capacity_ul, instrument)?.gt(drawn_ul) === true,
    },
  };
  // Every mark of a syringe may be asked for.
}, 10_000);
