import { readChip } from '../core/chip/read-chip.js';

/**
 * Chip numbers of the demo. They have the form of real ones (shared manufacturer code 900) because the test code 999
 * must not be taken for an animal; the block 900 000 000 and the numbers in it are invented.
 */
const block = '900000000';
const numbered = (box: number, place: number): string => `${block}${box}${String(place).padStart(5, '0')}`;

/** The numbers of one invented box, not in a row, as boxes often come. */
export const boxCodes = (box: number, count: number): string[] =>
  Array.from({ length: count }, (_, index) => numbered(box, 4107 + index * 13));

/** Numbers that cats brought with them. */
export const broughtCode = (place: number): string => numbered(7, 20_311 + place * 977);

/** The number that the reader shows for an animal that was given another one. */
export const strayCode = numbered(8, 31_415);

/** What a reader delivers for a number. Throws when our own reading of chips would not take it. */
export function chipAsFound(code: string): { raw: string; code: string; class: string } {
  const read = readChip(code);
  if (!read.ok || read.value.warnings.length > 0) throw new Error(`the demo's chip ${code} is not a plain ISO number`);
  return { raw: read.value.raw, code: read.value.code, class: read.value.class };
}
