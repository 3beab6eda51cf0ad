import { sameLot } from '../../core/point-of-care/kit.js';
import { type Said, said } from '../../core/said.js';
import type { BoxOut } from './kit-needs.js';
import { nextKit } from './kits-ready.js';

/**
 * The box of the shelf that a lot typed from a kit or its box names, whatever its case and blanks; null where none does. Of
 * several with one lot it is a good one that has tests out of the cold, else the first: `boxes` has usable ones first.
 */
export function boxNamed(boxes: readonly BoxOut[], typed: string): BoxOut | null {
  const named = boxes.filter(({ lot }) => sameLot(lot.lotText, typed));
  return named.find(({ fault, out }) => fault === null && out.length > 0) ?? named[0] ?? null;
}

/**
 * Why the kit of a box may not be used: the box was withdrawn, or its kit is still cold or past its limit. Null where it may,
 * where nobody took one out (that is asked), and for one of no box on the shelf (`box` null).
 */
export function whyNotOfBox(box: BoxOut | null): Said | null {
  if (box === null) return null;
  if (box.fault === 'withdrawn') return said('round.box.withdrawn', { lot: box.lot.lotText });
  const readiness = nextKit(box.out)?.readiness;
  return readiness?.is === 'warming' || readiness?.is === 'out-too-long' ? readiness.why : null;
}
