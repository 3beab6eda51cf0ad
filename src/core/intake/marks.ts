import { type Said, said } from '../said.js';
import type { Field } from './columns/fields.js';
import type { TakenIn } from './taken-in.js';

/** Longest text of each mark, as the record has it. */
const limits = { collar: 60, coat: 120, mark: 200 } as const;
/** Fields that the caller cuts. */
export const cutAt = { name: 120, label: 60, kennel: 40, litter: 80 } as const;
const notesLimit = 2000;

/**
 * Identity marks and notes of a row. Blanks run together (`brown  tabby`). A text too long for its place is kept whole in
 * the notes with a doubt; `alsoKept` are cells that were not taken as they stand and go there too.
 */
export function readMarks(
  cell: (field: Field) => string,
  alsoKept: readonly string[],
  doubts: Said[],
): Pick<TakenIn, 'marks' | 'notes'> {
  const kept: string[] = [cell('notes'), ...alsoKept];
  for (const field of ['name', 'label', 'kennel', 'litter'] as const) {
    if (cell(field).length <= cutAt[field]) continue;
    doubts.push(said('import.text-too-long', { start: cell(field).slice(0, 30) }));
    kept.push(`${field}: ${cell(field)}`);
  }
  const fitting = (field: keyof typeof limits): string => {
    const text = cell(field).replace(/\s+/g, ' ');
    if (text.length <= limits[field]) return text;
    doubts.push(said('import.text-too-long', { start: text.slice(0, 30) }));
    kept.push(`${field}: ${text}`);
    return text.slice(0, limits[field]);
  };
  const marks = { collar: fitting('collar'), coat: fitting('coat'), mark: fitting('mark'), photo: null };
  const notes = kept.filter((text) => text !== '').join('\n');
  if (notes.length > notesLimit) doubts.push(said('import.notes-cut', { length: notes.length, kept: notesLimit }));
  return { marks, notes: notes.slice(0, notesLimit) };
}
