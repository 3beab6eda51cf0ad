import type { KitType, Product, Syringe } from '../dosing/formulary.js';
import type { KitTypeId, ProductId, SyringeId } from '../ids.js';

/** What one thing to be done needs from the cart. */
export type Need =
  | {
      readonly is: 'dose';
      readonly product: ProductId;
      readonly syringe: SyringeId | null;
      readonly volume_ul: number | null;
      /** Its amount stands in the words of an order: neither volume nor syringe are known. */
      readonly inWords?: boolean;
    }
  /** `sameDraw`: its blood is drawn for another test of the animal anyway. */
  | { readonly is: 'test'; readonly kitType: KitTypeId; readonly sameDraw?: boolean }
  | { readonly is: 'chip' }
  | { readonly is: 'weighing' };

/** A section to be visited with what it asks people to wear and the litters met there. */
export interface CartSection {
  readonly id: string;
  readonly name: string;
  readonly wear: readonly string[];
  readonly leave: readonly string[];
  readonly contactMinutes: number;
  /** Groups that are handled together; fresh gloves between them. */
  readonly groups: number;
}

export interface CartProduct {
  readonly product: Product;
  readonly doses: number;
  /** Sum of the worked-out volumes; null when at least one could not be worked out yet. */
  readonly volume_ul: number | null;
  /** Doses whose amount stands only in the words of an order: what they are drawn in is for people to choose. */
  readonly inWords: number;
}

export interface CartKit {
  readonly kit: KitType;
  readonly tests: number;
  /** Draws made for it: none where the blood is drawn for another test. */
  readonly draws: number;
  /** Syringes made ready with anticoagulant, one for each draw and a spare: only supervisor or medical team prepare them. */
  readonly readySyringes: number;
}

export interface Cart {
  readonly products: readonly CartProduct[];
  readonly syringes: readonly { readonly syringe: Syringe; readonly count: number }[];
  readonly kits: readonly CartKit[];
  /** Chips in their packs; one spare, because a chip that did not go in is thrown away. */
  readonly chips: number;
  readonly scale: boolean;
  readonly reader: boolean;
  /** Sets of things to put on: section, item, count for both people. */
  readonly wear: readonly { readonly section: string; readonly item: string; readonly count: number }[];
  /** Pairs of gloves: both people, fresh for each group. */
  readonly glovePairs: number;
  /** What cleans, each once, with the longest wet time asked for. */
  readonly cleaning: readonly string[];
  readonly contactMinutes: number;
  readonly sharpsBox: boolean;
}

/**
 * The cart list for a set of needs. Counts only; which lots to take is the stock's to say.
 * A spare ready-prepared syringe and a spare chip: common practice, no source. Fresh gloves between litters: see
 * facts on nursery practice in docs/rules.md (ROUND).
 */
export function cartFor(
  needs: readonly Need[],
  sections: readonly CartSection[],
  formulary: {
    readonly products: readonly Product[];
    readonly syringes: readonly Syringe[];
    readonly kits: readonly KitType[];
  },
  people: number,
): Cart {
  const doses = needs.filter((need) => need.is === 'dose');
  const tests = needs.filter((need) => need.is === 'test');
  const chips = needs.filter((need) => need.is === 'chip').length;

  const products = formulary.products.flatMap((product): CartProduct[] => {
    const own = doses.filter((need) => need.product === product.id);
    if (own.length === 0) return [];
    const unknown = own.some((need) => need.volume_ul === null);
    return [
      {
        product,
        doses: own.length,
        inWords: own.filter((need) => need.inWords === true).length,
        volume_ul: unknown ? null : own.reduce((sum, need) => sum + (need.volume_ul ?? 0), 0),
      },
    ];
  });
  const syringes = formulary.syringes.flatMap((syringe) => {
    const count = doses.filter((need) => need.syringe === syringe.id).length;
    return count === 0 ? [] : [{ syringe, count }];
  });
  const kits = formulary.kits.flatMap((kit): CartKit[] => {
    const own = tests.filter((need) => need.kitType === kit.id);
    const draws = own.filter((need) => need.sameDraw !== true).length;
    return own.length === 0 ? [] : [{ kit, tests: own.length, draws, readySyringes: draws === 0 ? 0 : draws + 1 }];
  });
  return {
    products,
    syringes,
    kits,
    chips: chips === 0 ? 0 : chips + 1,
    scale: needs.some((need) => need.is === 'weighing'),
    reader: true,
    wear: sections.flatMap((section) => section.wear.map((item) => ({ section: section.name, item, count: people }))),
    glovePairs: sections.reduce((sum, section) => sum + section.groups, 0) * people,
    cleaning: [...new Set(sections.flatMap((section) => section.leave))],
    contactMinutes: Math.max(0, ...sections.map((section) => section.contactMinutes)),
    sharpsBox: doses.length + tests.length + chips > 0,
  };
}
