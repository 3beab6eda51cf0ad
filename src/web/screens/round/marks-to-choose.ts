import type { Syringe } from '../../../core/dosing/formulary.js';

/** Four marks of this barrel, smallest first: the right one, its neighbours, and ten times or a tenth of it. */
export function marksToChooseFrom(
  right_ul: number,
  { mark_ul, capacity_ul }: Pick<Syringe, 'mark_ul' | 'capacity_ul'>,
): number[] {
  const onScale = (ul: number): boolean => ul > 0 && ul <= capacity_ul && ul % mark_ul === 0;
  const wrong = [
    right_ul * 10,
    right_ul / 10,
    right_ul - mark_ul,
    right_ul + mark_ul,
    right_ul * 2,
    right_ul + 2 * mark_ul,
    right_ul + 3 * mark_ul,
  ];
  return [right_ul, ...[...new Set(wrong)].filter(onScale).slice(0, 3)].sort((a, b) => a - b);
}
