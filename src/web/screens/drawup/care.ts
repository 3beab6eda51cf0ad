import type { Product } from '../../../core/dosing/formulary.js';
import { say } from '../../../words/say.js';

/** What a product asks for, in words: the coded care first, then what the document says in its own words. */
export const careOf = (product: Product): string[] => [
  ...product.care.map((one) => say(`drawup.care.${one}`)),
  ...product.handling.filter((text) => !saidByCode(product, text)),
];

/** "gloves" or "shake well" in words says no more than the code beside it. */
const saidByCode = (product: Product, text: string): boolean =>
  product.care.some((one) => text.toLowerCase().startsWith(one)) && text.length < 16;
