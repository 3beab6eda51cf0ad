import type { Neutered, Sex } from '../../animal/animal.js';
import { wordsOf } from '../compare.js';

export interface SexReading {
  readonly sex: Sex;
  readonly neutered: Neutered;
  /** `read`: every word was understood; `blank`: nothing or a word for unknown; the other two need a person. */
  readonly state: 'read' | 'blank' | 'contradictory' | 'not-understood';
}

type Meaning = 'female' | 'male' | 'neutered' | 'spayed' | 'intact' | 'unknown';

const meanings: readonly (readonly [Meaning, RegExp])[] = [
  ['unknown', /^(u|unk|unknown|unbekannt|inconnu|desconocido|undetermined|undefined|na|none|not|sexed)$/],
  ['female', /^(f|fem|female|females|girl|queen|w|weiblich|femelle|hembra|femmina)$/],
  ['male', /^(m|male|males|boy|tom|mannlich|male|macho|maschio)$/],
  ['spayed', /^(s|sp|spay|spayed|sterilisee|esterilizada)$/],
  [
    'neutered',
    /^(n|c|x|neut|neuter|neutered|castrated|gelded|altered|fixed|desexed|sterilized|sterilised|kastriert|castre|castrado)$/,
  ],
  ['intact', /^(i|e|intact|entire|whole|unaltered|unneutered|unspayed|unkastriert)$/],
];

const unread: SexReading = { sex: 'unknown', neutered: 'unknown', state: 'not-understood' };

/**
 * Sex and neuter state from one cell that may hold either or both: `Spayed Female`, `Intact Male`, `Neutered`, `Spayed`,
 * `M/N`, `FS`, `Unknown`. `Neutered` alone means a neutered male and `Spayed` a female; `Male` alone says nothing about
 * neutering.
 */
export function readSex(cell: string): SexReading {
  if (/^[\s?.*-]*$/.test(cell)) return { ...unread, state: 'blank' };
  const words = wordsOf(cell).flatMap(lettersOf);
  const seen = new Set<Meaning>();
  for (const word of words) {
    const meaning = meanings.find(([, shape]) => shape.test(word))?.[0];
    if (meaning === undefined) return unread;
    seen.add(meaning);
  }
  const done = seen.has('neutered') || seen.has('spayed');
  const contradictory =
    (seen.has('female') && seen.has('male')) ||
    (seen.has('male') && seen.has('spayed')) ||
    (done && seen.has('intact'));
  if (contradictory) return { ...unread, state: 'contradictory' };
  const sex: Sex = seen.has('female') || seen.has('spayed') ? 'female' : seen.has('male') ? 'male' : 'unknown';
  const alone = sex === 'unknown' && seen.has('neutered');
  const neutered: Neutered = done ? 'yes' : seen.has('intact') ? 'no' : 'unknown';
  const blank = sex === 'unknown' && neutered === 'unknown';
  return { sex: alone && seen.size === 1 ? 'male' : sex, neutered, state: blank ? 'blank' : 'read' };
}

/** Two-letter codes such as `FS` or `MN` are two words. */
const lettersOf = (word: string): string[] => (/^[fm][nscixe]$|^[nsci][fm]$/.test(word) ? [...word] : [word]);

/** The neuter state from a column of its own: yes, no, or a word for it. */
export function readNeutered(cell: string): Neutered | null {
  const words = wordsOf(cell);
  if (words.length === 0) return 'unknown';
  if (words.length === 1 && /^(y|yes|true|t|1|ja|oui|si)$/.test(words[0] ?? '')) return 'yes';
  if (words.length === 1 && /^(n|no|false|f|0|nein|non)$/.test(words[0] ?? '')) return 'no';
  const reading = readSex(cell);
  return reading.state === 'read' || reading.state === 'blank' ? reading.neutered : null;
}
