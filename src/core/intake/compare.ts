import { takenApart } from './heading-words.js';

/**
 * A text as it is compared, never as it is kept: compatibility form without accents, without case, blanks run together.
 * `Jalapeño` in either Unicode form, `JALAPENO ` and `jalapeno` are equal.
 */
export const plainForm = (text: string): string =>
  text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().replace(/ß/g, 'ss').replace(/\s+/g, ' ').trim();

/** A name as it is compared: as `plainForm`, and without asterisks and quotation marks, which shelters add to names. */
export const nameKey = (name: string): string =>
  plainForm(name)
    .replace(/[*"'“”‘’]/g, '')
    .replace(/\s+/g, ' ')
    .trim();

/** The words of a text in plain form: letters and figures apart, at every other sign. */
export const wordsOf = (text: string): string[] => plainForm(text).match(/\p{L}+|\p{N}+/gu) ?? [];

/** The words of a heading; `AnimalID`, `animal_id` and `animalid` are all `animal id`. */
export const headingWords = (heading: string): string[] =>
  wordsOf(heading.replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2').replace(/(\p{Lu})(\p{Lu}\p{Ll})/gu, '$1 $2')).flatMap(
    takenApart,
  );
