import { wordsOf } from './compare.js';

const cats = /^(cats?|felines?|felis|kittens?|kitty|katzen?|kater|chats?|chatons?|gat[oai]s?|gatt[oaie]|kat|katten?)$/;
const others =
  /^(dogs?|canines?|canis|pupp(y|ies)|hunde?|chiens?|perros?|birds?|avian|rabbits?|lagomorph|bunny|other|wild(life)?|reptiles?|livestock|horses?|equine|(guinea)?pigs?|rats?|mice|ferrets?|hamsters?|poultry|fish|amphibians?|exotics?)$/;

/** Whether a cell of a species column means a cat; `unknown` for an empty cell or a word for not known. */
export function isCat(cell: string): 'cat' | 'other' | 'unknown' {
  const words = wordsOf(cell);
  if (words.length === 0 || /^(unknown|unk|na|none)$/.test(words.join(''))) return 'unknown';
  return words.some((word) => cats.test(word)) ? 'cat' : 'other';
}

/** Whether a cell reads like a species at all; used to find the column. */
export const namesSpecies = (cell: string): boolean =>
  wordsOf(cell).some((word) => cats.test(word) || others.test(word));
