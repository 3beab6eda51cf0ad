// Controls of the direction of writing, characters without width, and control characters (Unicode Annex 9, Annex 31).
const unseen = /[\p{Cc}\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/gu;
const rightToLeft = /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]/u;

/**
 * A text that people typed, as it may stand in a sentence: without what turns or hides the rest of it, and kept to itself
 * (U+2068, U+2069) where it runs from right to left. Line breaks and tabs stay.
 */
export function shown(text: string): string {
  const plain = text.replace(unseen, (one) => (one === '\n' || one === '\t' || one === '\r' ? one : ''));
  return rightToLeft.test(plain) ? `\u2068${plain}\u2069` : plain;
}
