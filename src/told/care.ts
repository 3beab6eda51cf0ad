import { ageRange } from '../core/animal/age-range.js';
import type { Animal } from '../core/animal/animal.js';
import type { CalendarDate } from '../core/calendar.js';
import { type CautionsNow, cautionsFor } from '../core/dosing/cautions.js';
import type { Product } from '../core/dosing/formulary.js';
import { say } from '../words/say.js';

/**
 * What a product asks for with this animal, in words: what changes what the hand does first (the coded care, then how
 * the document says it), then the rest. What is only about other animals is left out.
 */
export function careOf(product: Product, animal: Animal, grams: number | null, today: CalendarDate): CautionsNow {
  const { hand, other } = cautionsFor(product, { ageDays: ageRange(animal, today), grams, today });
  const coded = product.care.filter((one) => ![...hand, ...other].some((text) => inCautions[one]?.test(text)));
  const inHand = (one: Product['care'][number]): boolean => ofHand.includes(one);
  const words = (one: Product['care'][number]): string => say(`drawup.care.${one}`);
  return {
    hand: [
      ...coded.filter(inHand).map(words),
      ...product.handling.filter((text) => !saidByCode(product, text)),
      ...hand,
    ],
    other: [...other, ...coded.filter((one) => !inHand(one)).map(words)],
  };
}

/** Care that is taken by the hand that gives; gloves are on already, and cold and dark are for the cart. */
const ofHand: readonly Product['care'][number][] = ['shake', 'warm', 'needle-off', 'with-food', 'water-after'];

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
