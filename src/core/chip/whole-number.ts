import { no, type Outcome } from '../said.js';
import { type ChipReading, readChip } from './read-chip.js';

/**
 * Takes a number only when it came whole. 15 digits are whole by their length. A number of an older kind (9 digits, 10
 * characters) may be a piece of a longer one: one that is a part of a known number is cut; one that nobody knows counts
 * only when the same came twice in a row. `before` is what was read right before it, or null.
 */
export function readWhole(raw: string, known: ReadonlySet<string>, before: string | null): Outcome<ChipReading> {
  const reading = readChip(raw);
  if (!reading.ok || reading.value.class === 'iso' || known.has(reading.value.code)) return reading;
  const { code } = reading.value;
  if (isPiece(code, known)) return no('chip.cut', { code });
  return code === before ? reading : no('chip.once-more', { code, digits: code.length });
}

/** Whether a short number stands inside a longer one that is known. */
export function isPiece(code: string, known: Iterable<string>): boolean {
  for (const one of known) if (one.length > code.length && one.includes(code)) return true;
  return false;
}
