import { readWeight } from '../../quantity/read-weight.js';
import type { WeightUnit } from '../../quantity/units.js';
import { type Said, said } from '../../said.js';
import { type DecimalSign, hasTwoReadings, withPoint } from './decimal-sign.js';

export type WeightCell =
  | { readonly state: 'blank' }
  | { readonly state: 'read'; readonly weight: { readonly grams: number; readonly entered: string } }
  | { readonly state: 'doubtful'; readonly why: Said };

/**
 * A weight of a file in whole grams. A unit in the cell wins over the file's unit. Without a unit, or with two readings
 * and no decimal sign known for the file, nothing is taken.
 */
export function readFileWeight(cell: string, sign: DecimalSign | null, unit: WeightUnit | null): WeightCell {
  if (/^[\s?-]*$|^(n\/?a|none|unknown)$/i.test(cell)) return { state: 'blank' };
  if (unit === null && !/\p{L}/u.test(cell))
    return { state: 'doubtful', why: said('import.weight-without-unit', { cell }) };
  if (sign === null && hasTwoReadings(cell)) {
    return { state: 'doubtful', why: said('import.weight-two-readings', { cell }) };
  }
  const reading = readWeight(sign === null ? cell : withPoint(cell, sign), unit ?? 'g');
  switch (reading.is) {
    case 'weight':
      return { state: 'read', weight: { grams: reading.weight.grams, entered: cell.slice(0, 60) } };
    case 'ask':
      return { state: 'doubtful', why: said('import.weight-two-readings', { cell }) };
    case 'no':
      return { state: 'doubtful', why: said('import.weight-not-taken', { cell, why: reading.why }) };
  }
}
