import { type Said, said } from '../said.js';
import { nameKey, plainForm } from './compare.js';
import { repairText } from './file/repair.js';

export interface NameReading {
  /** As it will stand on the cage: as typed, or the repaired text where the letters were damaged. */
  readonly name: string;
  readonly doubts: readonly Said[];
}

/**
 * Judge a name. It is kept as typed (asterisks and quotation marks included); doubtful are a name that is a number, a
 * lone sign, a word for "no name", and letters damaged on the way, whose likely original is offered.
 */
export function readName(cell: string, label: string): NameReading {
  const typed = cell.trim();
  if (typed === '') return { name: '', doubts: [] };
  const repaired = repairText(typed);
  const name = repaired ?? typed;
  const doubts: Said[] = repaired === null ? [] : [said('import.letters-damaged', { typed, offered: repaired })];
  const key = nameKey(name);
  const bare = key.replace(/[^\p{L}\p{N}]/gu, '');
  if (bare === '') doubts.push(said('import.name-is-a-sign', { name }));
  else if (/^(unknown|unk|none|no ?name|noname|unnamed|n\/?a|tbd|null|x)$/.test(key)) {
    doubts.push(said('import.name-means-none', { name }));
  } else if (holdsNumber(key, label)) doubts.push(said('import.name-is-a-number', { name }));
  return { name, doubts };
}

/** The animal's own number, or five figures and more: an id typed where the name belongs. */
function holdsNumber(key: string, label: string): boolean {
  const own = plainForm(label).replace(/[^\p{L}\p{N}]/gu, '');
  return (own.length >= 3 && /\d/.test(own) && key.replace(/[^\p{L}\p{N}]/gu, '').includes(own)) || /\d{5}/.test(key);
}
