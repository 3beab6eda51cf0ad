import { wordsOf } from '../compare.js';

const cats = /^(cats?|felines?|felis|kittens?|kitty|katzen?|kater|chats?|chatons?|gat[oai]s?|gatt[oaie]|kat|katten?)$/;
const others =
  /^(dogs?|canines?|canis|pupp(y|ies)|hunde?|chiens?|perros?|birds?|avian|rabbits?|lagomorph|bunny|other|wild(life)?|reptiles?|livestock|horses?|equine|(guinea)?pigs?|rats?|mice|ferrets?|hamsters?|poultry|fish|amphibians?|exotics?)$/;

/**
 * Words that only cats are described with, for files that write a coat or a breed where the species belongs. Plain words
 * and short forms of common practice, no source; a cell counts only when it holds nothing else.
 */
const described =
  /^(d(sh|mh|lh)|dom(estic)?|short|medium|med|long|semi|hair(ed)?|(short|medium|long|semilong)hair(ed)?|american|british|exotic|oriental|tabby|tort(ie|oiseshell|bie)|torbie|calico|tuxedo|siamese|persian|maine|coon|ragdoll|bengal|sphynx|russian|blue|burmese|abyssinian|birman|manx|ocicat|snowshoe|tonkinese|bobtail|mix(ed)?|cross|x|breed|sh|mh|lh)$/;
const onlyCats =
  /^(d[sml]h|tabby|tortie|tortoiseshell|torbie|calico|siamese|persian|ragdoll|bengal|sphynx|burmese|abyssinian|birman|manx|ocicat|snowshoe|tonkinese)$|domestic .*(hair|sh|mh|lh)|maine coon|russian blue|(american|british|exotic|oriental) (short|long) ?hair/;

const isDescribedAsCat = (words: readonly string[]): boolean =>
  words.every((word) => described.test(word)) &&
  (words.some((word) => onlyCats.test(word)) || onlyCats.test(words.join(' ')));

/** Whether a cell of a species column means a cat; `unknown` for an empty cell or a word for not known. */
export function isCat(cell: string): 'cat' | 'other' | 'unknown' {
  // `D.S.H.` is one word.
  const words = wordsOf(cell.replace(/\b(\p{L})\./gu, '$1'));
  if (words.length === 0 || /^(unknown|unk|na|none)$/.test(words.join(''))) return 'unknown';
  return words.some((word) => cats.test(word)) || isDescribedAsCat(words) ? 'cat' : 'other';
}

/** Whether a cell reads like a species at all; used to find the column. */
export const namesSpecies = (cell: string): boolean =>
  wordsOf(cell).some((word) => cats.test(word) || others.test(word));
