import type { Decimal } from 'decimal.js';
import type { SyringeId } from '../ids.js';
import { exactly, plain, toStep } from '../quantity/exact.js';
import { microlitresToUnits } from '../quantity/read-volume.js';
import { type Microlitres, microlitres } from '../quantity/units.js';
import { writeNumber, writeUnits, writeVolume } from '../quantity/write.js';
import { type Said, said } from '../said.js';
import type { Product, Route, Syringe } from './formulary.js';

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
  for (const syringe of [...syringes].sort(bySize)) {
    if (!syringe.routes.includes(rules.route)) continue;
    if (rules.maxMark_ul !== null && syringe.mark_ul > rules.maxMark_ul) continue;
    const volume = markFor(exact_ul, rules, syringe.mark_ul);
    if (volume.isZero() || volume.gt(syringe.capacity_ul)) continue;
    const error = volume.sub(exact_ul).div(exact_ul).mul(100);
    if (error.abs().gt(rules.tolerancePercent)) continue;
    return {
      syringe: syringe.id,
      syringeName: syringe.name,
      scale: syringe.scale,
      volume_ul: microlitres(volume.toNumber()),
      mark: markText(volume, syringe.scale),
      errorPercent: plain(error, 2),
    };
  }
  return null;
}

/** The mark, in exact microlitres, to which a volume is drawn on a scale with these marks. */
export function markFor(
  exact_ul: Decimal,
  rules: Pick<DrawUpRules, 'rounding' | 'ceiling_ul'>,
  mark_ul: number,
): Decimal {
  const mark = exactly(mark_ul);
  const rounded = toStep(exact_ul, mark, rules.rounding);
  const overCeiling = rules.ceiling_ul !== null && rounded.gt(rules.ceiling_ul);
  return overCeiling ? toStep(rules.ceiling_ul ?? exact_ul, mark, 'down') : rounded;
}

/** A volume as the barrel shows it. */
export const markText = (ul: Decimal | number, scale: Syringe['scale']): string =>
  scale === 'mL' ? writeVolume(exactly(ul).toNumber()) : writeUnits(microlitresToUnits(ul, scale));

/** An exact volume for reading: millilitres with at most five decimals. */
export const volumeText = (ul: Decimal): string => `${writeNumber(ul.div(1000), 5)}\u00a0mL`;
