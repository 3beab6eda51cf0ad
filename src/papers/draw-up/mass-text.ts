import type { Dose } from '../../core/dosing/dose.js';
import { writeMass } from '../../core/quantity/write.js';

/** The drug in what is given: in all that is drawn, where it is drawn; else the exact amount. Empty when not known. */
export function massText(dose: Dose): string {
  const ug = dose.drawn === null ? dose.exact_ug : dose.drawn_ug;
  return ug === null ? '' : writeMass(ug);
}

/** The drug in one draw, as it stands on the label of one syringe. */
export const massOfOneDraw = (dose: Dose): string =>
  dose.drawn_ug === null || dose.places === 1 ? massText(dose) : writeMass(dose.drawn_ug / dose.places);
