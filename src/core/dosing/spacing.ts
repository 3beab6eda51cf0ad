import { Temporal } from 'temporal-polyfill';
import { derived } from '../derived.js';
import { exactly } from '../quantity/exact.js';
import { said } from '../said.js';
import type { RecentDose } from './dose-question.js';
import type { FormularyDocument, Product } from './formulary.js';
import { type Gate, gate } from './gate.js';

const plainName = (name: string): string => name.trim().toLowerCase();

/**
 * Doses of the same ingredient, or of one that the document keeps apart from it, within the stated days, whatever
 * product carried them. The product's own course is no overlap. One gate for each ingredient.
 */
export function spacingGates(
  product: Product,
  formulary: FormularyDocument,
  recent: readonly RecentDose[],
  now: string,
): Gate[] {
  if (recent.length === 0 || formulary.spacings.length === 0) return [];
  const current = Temporal.Instant.from(now).epochMilliseconds;
  const gates = new Map<string, Gate>();
  for (const rule of formulary.spacings) {
    const named = rule.ingredients.map(plainName);
    const own = product.ingredients.find((one) => named.includes(plainName(one.name)));
    if (own === undefined || (rule.routes.length > 0 && !rule.routes.includes(product.route))) continue;
    for (const dose of recent) {
      const other = formulary.products.find((one) => one.id === dose.product);
      const shared = other?.ingredients.find((one) => named.includes(plainName(one.name)));
      if (other === undefined || shared === undefined) continue;
      if (other.id === product.id && product.course !== null) continue;
      if (rule.routes.length > 0 && !rule.routes.includes(other.route)) continue;
      const days = (current - Temporal.Instant.from(dose.at).epochMilliseconds) / 86_400_000;
      if (days < 0 || days >= rule.days) continue;
      const why = said(own.name === shared.name ? 'dose.gate.ingredient-too-soon' : 'dose.gate.family-too-soon', {
        product: product.name,
        own: own.name,
        ingredient: shared.name,
        other: other.name,
        at: { instant: dose.at },
        days: rule.days,
      });
      gates.set(shared.name, gate('ingredient-too-soon', 'stop', why));
    }
  }
  return [...gates.values()];
}

/** Ingredients that may not go in by this route, at this age or at this strength. */
export function notThisWayGates(
  product: Product,
  formulary: FormularyDocument,
  oldEnough: OldEnough,
  /** Strength of the ingredient named first once it is diluted, or null as it comes. */
  diluted_mg_per_ml: string | null = null,
): Gate[] {
  return rulesFor(product, formulary).flatMap(({ rule, own }) => {
    if (rule.underAge !== null && oldEnough(rule.underAge)) return [];
    if (rule.over_mg_per_ml !== null) {
      const strength = own === product.ingredients[0] ? (diluted_mg_per_ml ?? own.mg_per_ml) : own.mg_per_ml;
      if (strength !== null && exactly(strength).lte(rule.over_mg_per_ml)) return [];
    }
    const why = said('dose.gate.not-this-way', { product: product.name, ingredient: own.name, why: rule.why });
    return [gate('not-this-way', rule.severity, why)];
  });
}

/** Whether even the youngest age that the animal may have reaches a span. */
export type OldEnough = (least: NonNullable<FormularyDocument['notThisWay'][number]['underAge']>) => boolean;

interface RuleOf {
  readonly rule: FormularyDocument['notThisWay'][number];
  readonly own: Product['ingredients'][number];
}
/** The rules that a product falls under by its ingredients and its route. */
const rulesFor = derived((product: Product, formulary: FormularyDocument): readonly RuleOf[] =>
  formulary.notThisWay.flatMap((rule) => {
    const own = product.ingredients.find((one) => plainName(one.name) === plainName(rule.ingredient));
    const byRoute = rule.routes.length === 0 || rule.routes.includes(product.route);
    return own === undefined || !byRoute ? [] : [{ rule, own }];
  }),
);
