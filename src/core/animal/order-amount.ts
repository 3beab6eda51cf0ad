import type { CalendarDate } from '../calendar.js';
import { derived } from '../derived.js';
import type { OrderDose, OrderedAmount } from '../dosing/ordered.js';
import { type OrderTerms, orderOn, timesADay } from './vet-order.js';

/** Where people write an amount although a field of its own asks for it. */
const besideAmount = ['name', 'why', 'amount'] as const;
type Beside = (typeof besideAmount)[number];
type Amountless = Pick<OrderTerms, 'treat' | 'amount'> & Partial<Pick<OrderTerms, Beside | 'dose' | 'steps'>>;

const unit =
  'mg|mgs|milligrams?|mcg|ug|\u00b5g|\u03bcg|micrograms?|ml|mls|millilit(?:re|er)s?|cc|ccm|iu|i\\.u\\.|u|units?|meq|mmol|' +
  'tablets?|tabs?|pills?|capsules?|caps?|drops?|gtt|pipettes?|tubes?|puffs?|sprays?|sachets?|ampoules?|vials?|syringefuls?|syringes?';
const amountText = new RegExp(
  // How much: "10 mg/kg", "1/2 tablet". A strength, "10 mg per mL", is not.
  `[\\d\u00bd\u00bc\u00be]\\s*-?(?:${unit})(?![\\p{L}\\d])(?!\\s*(?:/|per)\\s*(?:ml|cc|millilit(?:re|er))(?!\\p{L}))` +
    // In words: "half a tablet", "two drops", "double the dose".
    `|(?<!\\p{L})(?:half|quarter|third|one|two|three|four|five|six|eight|ten)\\s+(?:of\\s+)?(?:an?\\s+|the\\s+)?(?:${unit})(?!\\p{L})` +
    `|(?<!\\p{L})(?:half|double|twice|triple|quarter)\\s+(?:of\\s+)?(?:an?\\s+|the\\s+)?(?:usual\\s+|label\\s+|normal\\s+)?(?:dose|amount|quantity)(?!\\p{L})`,
  'iu',
);

/** A range: 5-10 mg/kg, 5 to 10 mg per kg, 1 or 2 tablets. Which of it is meant, the text does not say. */
const rangeText = new RegExp(
  `(?<![\\d.,])\\d+(?:[.,]\\d+)?\\s*(?:${unit})?(?:\\s*(?:/|per)\\s*kg)?\\s*(?:-|\u2010|\u2011|\u2013|\u2014|\u2212|to|or)\\s*\\d+(?:[.,]\\d+)?\\s*-?(?:${unit})(?![\\p{L}\\d])`,
  'iu',
);

/** Whether the words of an order leave a range of amounts open without saying who chooses. */
export const leavesRangeOpen = (terms: Amountless & Pick<OrderTerms, 'chosenBy'>): boolean =>
  terms.chosenBy === null && rangeText.test(amountInWords(terms) ?? '');

/** Whether a text names a range of amounts, by its unit. */
export const namesRange = (text: string): boolean => rangeText.test(text);

/** The figure of an order as people write it in the middle of a text: 10 mg/kg, 10 mg per kg, 1.5 tablets. */
function sameFigure({ amount, unit: of }: OrderDose): RegExp {
  const [drug = '', kg] = of.split('-per-');
  const named = drug === 'pieces' ? '(?:pieces?|tablets?|tabs?|pills?|capsules?|caps?)' : drug;
  const perKg = kg === undefined ? '(?!\\s*(?:/|per)\\s*kg)' : '\\s*(?:/|per)\\s*kg';
  return new RegExp(`(?<![\\d.,])${amount.replace('.', '\\.')}\\s*${named}(?!\\p{L})${perKg}`, 'giu');
}

/** The fields in which an order says how much beside the field for it; none where they say the same, or need none. */
export function amountElsewhere(terms: Amountless): readonly Beside[] {
  if (terms.treat.is === 'words') return [];
  const { dose = null, steps = [] } = terms;
  if (dose === null) {
    if (terms.amount.trim() !== '') return [];
    return besideAmount.filter((field) => amountText.test(terms[field] ?? ''));
  }
  const same = [dose, ...steps.map((step) => step.dose)].map(sameFigure);
  return besideAmount.filter((field) =>
    amountText.test(same.reduce((text, figure) => text.replaceAll(figure, ''), terms[field] ?? '')),
  );
}

/**
 * The amount of an order in its own words, which nobody here has worked out, also where it stands in the name or the reason
 * or contradicts the figure; null where the order leaves the amount to the formulary, says it as a figure, or is no product.
 */
export function amountInWords(terms: Amountless): string | null {
  if (terms.treat.is === 'words') return null;
  if (terms.dose == null && terms.amount.trim() !== '') return terms.amount.trim();
  const elsewhere = amountElsewhere(terms).map((field) => (terms[field] ?? '').trim());
  return elsewhere.length === 0 ? null : elsewhere.join('; ');
}

/** What an order says of the amount on a day. */
export const amountOrdered = derived((terms: OrderTerms, on: CalendarDate): OrderedAmount => {
  const words = amountInWords(terms);
  if (words !== null) return { is: 'words', words, ...(terms.chosenBy === null ? {} : { chosenBy: terms.chosenBy }) };
  const { dose, timing } = orderOn(terms, on);
  return dose === null ? { is: 'formulary' } : { is: 'figure', dose, timesADay: timesADay(timing), meant: terms.meant };
});
