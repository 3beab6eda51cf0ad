import type { Decimal } from 'decimal.js';
import { derived } from '../derived.js';
import type { SyringeId } from '../ids.js';
import { above, exactly, nearly, quotientText, toStep } from '../quantity/exact.js';
import { microlitresToUnits } from '../quantity/read-volume.js';
import { type Microlitres, microlitres } from '../quantity/units.js';
import { writeNumber, writeUnits, writeVolume } from '../quantity/write.js';
import { type Said, said } from '../said.js';
import type { Product, Route, Syringe, VolumeFloor } from './formulary.js';

/** What is drawn, to which mark of which syringe. */
export interface Drawn {
  readonly syringe: SyringeId;
  readonly syringeName: string;
  readonly scale: Syringe['scale'];
  readonly volume_ul: Microlitres;
  /** As the barrel shows it: `7.5 units` on an insulin scale, `0.07 mL` on the others. */
  readonly mark: string;
  /** Drawn against exact, signed, percent with up to two decimals, plain text. */
  readonly errorPercent: string;
}

export interface DrawUpRules {
  readonly route: Route;
  readonly rounding: Product['rounding'];
  readonly tolerancePercent: string;
  /** Most that may be drawn, exact microlitres; null when there is no ceiling. */
  readonly ceiling_ul: Decimal | null;
  /** Least that may be drawn, exact microlitres; null or left out when there is none. */
  readonly floor_ul?: Decimal | null;
  /** Coarsest marks allowed at this volume; null for any. */
  readonly maxMark_ul: number | null;
}

export type DrawUp =
  | { readonly ok: true; readonly drawn: Drawn }
  /** `wouldDo`: syringes of the formulary that would, although none of them is at hand. */
  | { readonly ok: false; readonly why: Said; readonly wouldDo: readonly SyringeId[] };

/**
 * The smallest syringe at hand that holds the exact volume in one draw and has a mark within the tolerance. The exact
 * volume is rounded once, to a mark of that syringe: to the nearest one with ties down, or down only if the product
 * says so, and never to a mark above the ceiling. Nothing fits: the sentence names the syringe that would.
 */
export function drawUp(
  exact_ul: Decimal,
  rules: DrawUpRules,
  atHand: readonly Syringe[],
  known: readonly Syringe[],
): DrawUp {
  const drawn = firstThatFits(exact_ul, rules, atHand);
  if (drawn !== null) return { ok: true, drawn };
  const would = known.filter((syringe) => firstThatFits(exact_ul, rules, [syringe]) !== null).sort(bySize);
  const volume = volumeText(exact_ul);
  const why =
    would.length === 0
      ? said('dose.gate.no-syringe-known', { volume, percent: writeNumber(rules.tolerancePercent) })
      : said('dose.gate.no-syringe', { volume, syringes: { list: would.map((syringe) => syringe.name) } });
  return { ok: false, why, wouldDo: would.map((syringe) => syringe.id) };
}

/** Capacity first, then the finer marks. */
const bySize = (a: Syringe, b: Syringe): number => a.capacity_ul - b.capacity_ul || a.mark_ul - b.mark_ul;

function firstThatFits(exact_ul: Decimal, rules: DrawUpRules, syringes: readonly Syringe[]): Drawn | null {
  const near = nearly(exact_ul);
  for (const syringe of bySizeOnce(syringes)) {
    if (!syringe.routes.includes(rules.route)) continue;
    if (rules.maxMark_ul !== null && syringe.mark_ul > rules.maxMark_ul) continue;
    const volume = markFor(exact_ul, rules, syringe.mark_ul, near);
    if (volume === 0 || volume > syringe.capacity_ul) continue;
    if (isFurtherThan(volume, exact_ul, rules.tolerancePercent, near)) continue;
    return {
      syringe: syringe.id,
      syringeName: syringe.name,
      scale: syringe.scale,
      volume_ul: microlitres(volume),
      mark: markText(volume, syringe.scale),
      errorPercent: quotientText(exactly(volume).sub(exact_ul), exact_ul, 100, 2),
    };
  }
  return null;
}

const bySizeOnce = derived((syringes: readonly Syringe[]): readonly Syringe[] => [...syringes].sort(bySize));

/** Doubles of our sizes are right to far better than this; what lies closer to an edge is decided exactly. */
const edge = 1e-6;

/** Whether a mark is further from the exact volume than so many percent of it. */
function isFurtherThan(volume: number, exact_ul: Decimal, percent: string, near: number): boolean {
  const off = (Math.abs(volume - near) / near) * 100 - Number(percent);
  if (Math.abs(off) > edge) return off > 0;
  return above(exactly(volume).sub(exact_ul).abs().mul(100), exact_ul.mul(exactly(percent)));
}

/**
 * The mark, in whole microlitres, to which a volume is drawn on a scale with these marks, or 0 when none lies
 * between the least and the most. `near` is the volume as a double: it only picks the mark where no edge is close by.
 */
export function markFor(
  exact_ul: Decimal,
  rules: Pick<DrawUpRules, 'rounding' | 'ceiling_ul' | 'floor_ul'>,
  mark_ul: number,
  near: number = nearly(exact_ul),
): number {
  const { ceiling_ul, floor_ul = null } = rules;
  const over = (mark: number): boolean => ceiling_ul !== null && above(exactly(mark), ceiling_ul);
  const nearest = toMark(exact_ul, mark_ul, rules.rounding, near);
  const rounded =
    ceiling_ul !== null && over(nearest) ? toMark(ceiling_ul, mark_ul, 'down', nearly(ceiling_ul)) : nearest;
  if (floor_ul === null || !above(floor_ul, rounded)) return rounded;
  // Under the least: the next mark if it may be reached, else no mark of this barrel will do.
  const next = rounded + mark_ul;
  return rules.rounding === 'down' || over(next) ? 0 : next;
}

function toMark(exact_ul: Decimal, mark_ul: number, how: 'nearest' | 'down', near: number): number {
  const marks = near / mark_ul;
  const below = Math.floor(marks);
  const part = marks - below;
  const closest = Math.min(part, 1 - part, how === 'nearest' ? Math.abs(part - 0.5) : 1);
  if (closest < edge) return toStep(exact_ul, exactly(mark_ul), how).toNumber();
  return (how === 'nearest' && part > 0.5 ? below + 1 : below) * mark_ul;
}

/** A volume as the barrel shows it. */
export const markText = (ul: Decimal | number, scale: Syringe['scale']): string =>
  scale === 'mL' ? writeVolume(typeof ul === 'number' ? ul : ul.toNumber()) : writeUnits(microlitresToUnits(ul, scale));

/** An exact volume for reading: millilitres with at most five decimals. */
export const volumeText = derived((ul: Decimal): string => `${writeNumber(ul.mul(thousandth), 5)}\u00a0mL`);
const thousandth = exactly('0.001');

/** The lowest floor above the exact volume, or null. */
export function floorAt(ul: Decimal | number, floors: readonly VolumeFloor[]): VolumeFloor | null {
  let lowest: VolumeFloor | null = null;
  for (const floor of floors) {
    if (above(exactly(floor.below_ul), ul) && (lowest === null || floor.below_ul < lowest.below_ul)) lowest = floor;
  }
  return lowest;
}
