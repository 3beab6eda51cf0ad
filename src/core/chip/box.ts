import { no, type Outcome, ok } from '../said.js';
import { readChip } from './read-chip.js';

/** Chips that came in one box: every number on its list, and those already used or written off. */
export interface ChipBox {
  readonly codes: readonly string[];
  readonly used: readonly string[];
}

/**
 * Whether a chip number is on the list of an opened box and still free. The list is what catches a slip of one digit
 * (93 of 100 for a box of 25), because the number itself has no check digit.
 */
export function checkBox(raw: string, box: ChipBox): Outcome<string> {
  const read = readChip(raw);
  if (!read.ok) return read;
  const { code } = read.value;
  if (box.used.includes(code)) return no('chip.box-used', { code });
  return box.codes.includes(code) ? ok(code) : no('chip.box-unknown', { code });
}

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
