import type { Syringe } from '../../core/dosing/formulary.js';

/** A mark of the barrel; `figure` is empty where none stands beside it, `long` are those that count the figures. */
export interface BarrelMark {
  readonly at_ul: number;
  readonly long: boolean;
  readonly figure: string;
}

/** What is drawn of a syringe: all of it to scale, and through a glass the marks around the plunger. */
export interface Barrel {
  /** The capacity as the scale counts it. */
  readonly whole: string;
  readonly marks: readonly BarrelMark[];
  readonly glass: readonly BarrelMark[];
  /** Place in `glass` of the mark that the plunger stands at. */
  readonly here: number;
}

type Scaled = Pick<Syringe, 'capacity_ul' | 'mark_ul' | 'scale'>;

/** Microlitres in what the scale counts: 1 mL, or 1 unit of U-100 (10) or U-40 (25) insulin. */
const per: Readonly<Record<Syringe['scale'], number>> = { mL: 1000, 'U-100': 10, 'U-40': 25 };
const inGlass = 11;

/** Every how many marks a figure stands, so that figures do not run into each other. */
const figureEvery = (marks: number, most: number): number =>
  [1, 2, 4, 5, 10, 20, 25, 50, 100].find((every) => marks / every <= most) ?? marks;

/** The barrel with the plunger at a volume that lies on one of its marks. */
export function barrelOf({ capacity_ul, mark_ul, scale }: Scaled, volume_ul: number): Barrel {
  const count = Math.floor(capacity_ul / mark_ul);
  const every = figureEvery(count, 6);
  const figure = (index: number): string => String((index * mark_ul) / per[scale]);
  const mark = (index: number, told: boolean): BarrelMark => ({
    at_ul: index * mark_ul,
    long: index % every === 0,
    figure: told ? figure(index) : '',
  });
  const middle = Math.round(volume_ul / mark_ul);
  const first = Math.max(0, Math.min(middle - 5, count - 10));
  const shown = Array.from({ length: Math.min(inGlass, count + 1) }, (_, index) => first + index);
  const near = (index: number): boolean => Math.abs(index - middle) % 2 === 0 || shown.length < 8;
  return {
    whole: String(capacity_ul / per[scale]),
    marks: Array.from({ length: count + 1 }, (_, index) => mark(index, index % every === 0 && index > 0)),
    glass: shown.map((index) => mark(index, near(index))),
    here: middle - first,
  };
}
