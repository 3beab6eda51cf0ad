import { addSpanTo, type DayNumber, dayNumber } from '../calendar.js';
import { derived } from '../derived.js';
import { type AboutConditions, conditionsFound, type Found, isStop } from '../dosing/conditions.js';
import type { ProductId } from '../ids.js';
import { type Catalogue, classesOf, known, type ProtocolInput } from './input.js';

/** An animal on a day, by what was known up to `today`, as the conditions of products ask about it. */
export const aboutConditions = derived((input: ProtocolInput, on: DayNumber, today: DayNumber): AboutConditions => {
  const { born, sex, neutered, weighings, history } = input.animal;
  const days = { oldest: dayNumber(born.earliest), youngest: dayNumber(born.latest) };
  return {
    seen: (code, lasts) => known({ input, today }, code, on, lasts),
    sex,
    neutered,
    reached: (span, of) => addSpanTo(days[of], span) <= on,
    grams: weighings.findLast((one) => !one.doubtful && dayNumber(one.on) <= today)?.grams ?? null,
    daysSinceChip: daysSinceChip(input, on),
    daysSince: (classes) => {
      const given = history.flatMap((event) =>
        event.what === 'given' &&
        event.substandard !== 'not-taken' &&
        dayNumber(event.on) <= on &&
        classesOf(input, event.product)?.some((name) => classes.includes(name)) === true
          ? [dayNumber(event.on)]
          : [],
      );
      return given.length === 0 ? null : on - Math.max(...given);
    },
  };
});

function daysSinceChip({ animal }: ProtocolInput, on: DayNumber): number | null {
  const days = animal.history.flatMap((event) =>
    event.what === 'chipped' && dayNumber(event.on) <= on ? [dayNumber(event.on)] : [],
  );
  return days.length === 0 ? null : on - Math.max(...days);
}

/** What speaks against a product of the formulary in force on a day, as far as it is known today. */
export function foundAgainst(input: ProtocolInput, product: ProductId, on: DayNumber, today: DayNumber): Found[] {
  const conditions = conditionIndex(input.formulary ?? nothing).get(product);
  return conditions === undefined ? [] : conditionsFound(conditions, aboutConditions(input, on, today));
}

const nothing: Catalogue = { products: [], kits: [] };

/** Products that have conditions at all: most have none, and this is asked for every line of every animal. */
const conditionIndex = derived(
  (catalogue: Catalogue): ReadonlyMap<ProductId, Catalogue['products'][number]['conditions']> =>
    new Map(
      catalogue.products.flatMap(({ id, conditions = [] }) => (conditions.length === 0 ? [] : [[id, conditions]])),
    ),
);

/**
 * Products of which nothing stops one on a day, in their order; all of them with what stops the first, where something stops
 * every one.
 */
export function notStopped(
  input: ProtocolInput,
  products: readonly ProductId[],
  on: DayNumber,
  today: DayNumber,
): { readonly products: readonly ProductId[]; readonly stop: Found | null } {
  const stopped = products.map((id) => foundAgainst(input, id, on, today).find(isStop) ?? null);
  const free = products.filter((_, at) => stopped[at] === null);
  return free.length > 0 ? { products: free, stop: null } : { products, stop: stopped[0] ?? null };
}
