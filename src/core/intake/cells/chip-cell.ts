import { readChip } from '../../chip/read-chip.js';
import { type Said, said } from '../../said.js';
import type { FileChip } from '../taken-in.js';

/**
 * A chip number from a file: text, never repaired. What a reader of chips would look at twice makes the row doubtful; a
 * value that is no chip number is not taken, and stays in the notes as typed.
 */
export function readChipCell(cell: string, doubts: Said[]): { chip: FileChip | null; kept: string } {
  if (/^[\s?.-]*$|^(n\/?a|none|no|no chip|not? (found|chipped)|unknown|unk|null|0)$/i.test(cell)) {
    return { chip: null, kept: '' };
  }
  const reading = readChip(cell);
  if (!reading.ok) {
    doubts.push(said('import.chip-not-taken', { cell, why: reading.why }));
    return { chip: null, kept: `chip: ${cell}` };
  }
  doubts.push(...reading.value.warnings);
  const { code } = reading.value;
  return { chip: { raw: cell.slice(0, 200), code, class: reading.value.class }, kept: '' };
}
