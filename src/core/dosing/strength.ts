import { Temporal } from 'temporal-polyfill';
import { exactly, plain } from '../quantity/exact.js';
import { writeNumber, writeStrength } from '../quantity/write.js';
import { type Said, said } from '../said.js';
import type { DoseQuestion } from './dose-question.js';
import type { Product } from './formulary.js';
import { type Gate, gate } from './gate.js';
import type { Dilution } from './handling.js';

export interface InHand {
  /** The product as it is in the hand: with the strength it was made up to, or that was read on it. */
  readonly product: Product;
  /** The recipe by which it is diluted, or null. */
  readonly dilution: Dilution | null;
  readonly gates: readonly Gate[];
}

/**
 * What is really in the hand: a vial made up on the day takes its strength from its diluent, a strength read on the
 * label is held against the product's, a dilution follows a recipe of the signed document or is not made.
 */
export function inHand(question: DoseQuestion): InHand {
  const { product, strengthRead = null, dilution = null } = question;
  const gates: Gate[] = [];
  const made = madeUp(question);
  if (made.gate !== null) gates.push(made.gate);
  const first = made.product.ingredients[0];
  if (strengthRead !== null && first?.mg_per_ml != null && !exactly(strengthRead).eq(first.mg_per_ml)) {
    gates.push(gate('strength-twin', 'stop', twinWords(product, first.mg_per_ml, strengthRead)));
    // Whether or not a word lets it be used: no volume, worked out or given, is that of the strength that is not there.
    return otherStrength(made.product, strengthRead, gates);
  }
  if (dilution === null) return { product: made.product, dilution: null, gates };
  const recipe = product.dilutions.find((one) => one.id === dilution) ?? null;
  if (recipe === null || !dilutionAddsUp(recipe, first?.mg_per_ml ?? null)) {
    gates.push(gate('no-recipe', 'stop', said('dose.gate.no-recipe', { product: product.name })));
    return { product: made.product, dilution: null, gates };
  }
  return { product: made.product, dilution: recipe, gates };
}

/** The product with the strength that was read; a volume that belongs to the signed strength has no figure for it. */
function otherStrength(product: Product, strengthRead: string, found: readonly Gate[]): InHand {
  const ingredients = product.ingredients.map((one, index) =>
    index === 0 ? { ...one, mg_per_ml: plain(exactly(strengthRead)) } : { ...one, mg_per_ml: null },
  );
  const gates = [...found];
  if (product.dose.by === 'fixed' || product.dose.by === 'bands') {
    const own = product.ingredients[0]?.mg_per_ml ?? null;
    const values = {
      product: product.name,
      rule: own === null ? '' : writeStrength(own),
      is: writeStrength(strengthRead),
    };
    gates.push(gate('rule-for-another-strength', 'stop', said('dose.gate.other-strength', values)));
  }
  return { product: { ...product, ingredients }, dilution: null, gates };
}

function madeUp({ product, madeUp: made = null, now }: DoseQuestion): { product: Product; gate: Gate | null } {
  if (product.makeUp === null) return { product, gate: null };
  const { diluent, choices, goodForHours } = product.makeUp;
  const values = { product: product.name, diluent, hours: goodForHours };
  if (made === null) return { product, gate: gate('not-made-up', 'stop', said('dose.gate.not-made-up', values)) };
  const choice = choices.find((one) => exactly(one.mg_per_ml).eq(made.mg_per_ml));
  if (choice === undefined) {
    return { product, gate: gate('not-made-up', 'stop', said('dose.gate.made-up-otherwise', values)) };
  }
  const ingredients = product.ingredients.map((one, index) =>
    index === 0 ? { ...one, mg_per_ml: choice.mg_per_ml } : one,
  );
  const until = discardAt(made.at, goodForHours);
  const late = Temporal.Instant.compare(Temporal.Instant.from(now), Temporal.Instant.from(until)) > 0;
  const old = late
    ? gate('made-up-too-old', 'stop', said('dose.gate.made-up-too-old', { ...values, until: { instant: until } }))
    : null;
  return { product: { ...product, ingredients }, gate: old };
}

/** When a vial made up at an instant is thrown away, UTC text. */
export const discardAt = (madeUpAt: string, goodForHours: number): string =>
  Temporal.Instant.from(madeUpAt).add({ hours: goodForHours }).toString();

/** Whether a recipe gives the strength it says, from a stock of this strength; exact, no rounding. */
export function dilutionAddsUp(recipe: Dilution, stock_mg_per_ml: string | null): boolean {
  if (stock_mg_per_ml === null) return false;
  const stock = exactly(stock_mg_per_ml).mul(recipe.stock_ml);
  return stock.eq(exactly(recipe.gives_mg_per_ml).mul(exactly(recipe.stock_ml).add(recipe.diluent_ml)));
}

/** How many times the dose would go in if the vial with the other strength were used for the same volume. */
function twinWords(product: Product, own: string, read: string): Said {
  const known = product.twins.find((twin) => exactly(twin.mg_per_ml).eq(read));
  return said('dose.gate.strength-twin', {
    own: writeStrength(own),
    read: writeStrength(read),
    times: writeNumber(exactly(read).div(own), 2),
    what: known?.what ?? '',
  });
}
