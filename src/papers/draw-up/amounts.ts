import type { Dose } from '../../core/dosing/dose.js';
import { writeVolume } from '../../core/quantity/write.js';
import type { DrawUp } from '../../log/prepare/draw-ups.js';
import { say } from '../../words/say.js';

/** One draw of a dose, or how many pieces; only of a dose that no gate stops and no order puts in words. */
export function oneDrawText({ drawn, pieces, exact_ul }: Pick<Dose, 'drawn' | 'pieces' | 'exact_ul'>): string {
  if (drawn !== null) return writeVolume(drawn.volume_ul);
  return pieces === null ? writeVolume(exact_ul ?? 0) : say(pieces);
}

/** Which dose of a course it is; empty when the product is given once. */
export const courseText = ({ course }: Pick<DrawUp, 'course'>): string =>
  course === null || course.of === 1 ? '' : say('drawup.course', { number: course.number, of: course.of });

/** By which route, and where on the animal; the mouth has no other place. */
export const whereGiven = ({ product: { route, siteCode } }: Pick<DrawUp, 'product'>): string =>
  siteCode === null || siteCode === 'mouth' ? route : `${route}, ${say(`drawup.site.${siteCode}`)}`;
