import type { Product } from '../../../core/dosing/formulary.js';
import { say } from '../../../words/say.js';

/** What a product asks for, in words: the coded care first, then what the document says in its own words. */
export const careOf = (product: Product): string[] => [
  ...product.care
    .filter((one) => !product.cautions.some((text) => inCautions[one]?.test(text)))
    .map((one) => say(`drawup.care.${one}`)),
  ...product.handling.filter((text) => !saidByCode(product, text)),
];

/** How the same thing reads when a document says it in its own words as well. */
const inWords: Partial<Record<Product['care'][number], RegExp>> = {
  shake: /^shake/i,
  gloves: /^gloves/i,
  'keep-cold': /^keep cold/i,
  'keep-dark': /^keep .*(dark|light)/i,
};
/** What the document's own cautions already say of a coded care. */
const inCautions: Partial<Record<Product['care'][number], RegExp>> = {
  'needle-off': /needle off/i,
  'not-licked': /licked/i,
  'water-after': /food or water/i,
  warm: /warm/i,
};

const saidByCode = (product: Product, text: string): boolean =>
  product.care.some((one) => inWords[one]?.test(text) === true);
