import { no, type Outcome, ok } from '../said.js';
import { readChip } from './read-chip.js';

/**
 * The numbers of a box of consecutive chips from its first number. Boxes need not be consecutive: confirm with the last
 * number and one from the middle. Throws no error: a first number that cannot be read is refused with its sentence.
 */
export function consecutiveBox(first: string, count: number): Outcome<readonly string[]> {
  const read = readChip(first);
  if (!read.ok) return read;
  if (read.value.class !== 'iso' || !Number.isInteger(count) || count < 1 || count > 1000) return no('chip.box-range');
  const start = BigInt(read.value.code);
  return ok(Array.from({ length: count }, (_, i) => String(start + BigInt(i)).padStart(15, '0')));
}
