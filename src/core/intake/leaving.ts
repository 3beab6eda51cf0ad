import { wordsOf } from './compare.js';

export type LeftHow = 'adopted' | 'transferred' | 'returned-to-owner' | 'died' | 'other';

const gone: readonly RegExp[] = [/^(missing|lost|stolen|escaped?)$/];
const dead: readonly RegExp[] = [
  /^(dead|deceased|died|death|doa|dis(posal|posed)|euth(anasia|anised|anized|anise|anize|anasie)?|pts)$/,
  /^(cooler|freezer|morgue|crematory|cremat(ed|ion)|necropsy|remains|carcass|burial)$/,
];

/**
 * Whether a word for a place or for a way of leaving means that the animal is dead or not to be found, so that it must
 * not appear on a round. The words are plain English for it; a list of a shelter's own places overrides them.
 */
export function isGone(cell: string): 'dead' | 'missing' | null {
  const words = wordsOf(cell);
  if (words.some((word) => dead.some((shape) => shape.test(word)))) return 'dead';
  const missing = words.some((word) => gone.some((shape) => shape.test(word)));
  // "Lost and found" is a desk, not a fate.
  return missing && !words.includes('found') ? 'missing' : null;
}

/** The way of leaving in our few words; what is not recognised is `other`, and the cell is kept as the note. */
export function readLeftHow(cell: string): LeftHow {
  const text = wordsOf(cell).join(' ');
  if (isGone(cell) === 'dead') return 'died';
  if (/\bowner\b|\breclaim|\bredeem/.test(text)) return 'returned-to-owner';
  if (/\badopt/.test(text)) return 'adopted';
  return /\btransfer|\brescue|\bpartner|\btransport/.test(text) ? 'transferred' : 'other';
}

/** Whether a cell of a column about being dead says yes: `TRUE`, `1`, `yes`, `dead`. */
export const saysDead = (cell: string): boolean => /^(true|t|1|y|yes|dead|deceased|died)$/i.test(cell.trim());
