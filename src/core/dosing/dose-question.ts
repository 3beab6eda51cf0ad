import type { CalendarDate } from '../calendar.js';
import type { ProductId, SyringeId } from '../ids.js';
import type { Role } from '../people.js';
import type { AboutConditions } from './conditions.js';
import type { FormularyDocument, Product } from './formulary.js';
import type { OpenedGate } from './gate.js';
import type { LotForDose } from './label-gates.js';
import type { OrderedAmount } from './ordered.js';
import type { WeighingForDose } from './weight-fresh.js';

/** A dose that the animal has had: of any product, by its own time. */
export interface RecentDose {
  readonly product: ProductId;
  /** Instant, UTC text. */
  readonly at: string;
  readonly volume_ul: number | null;
  /** Strength of what was drawn, mg per mL; left out or null: the product's own. */
  readonly strength_mg_per_ml?: string | null;
}

export interface DoseQuestion {
  readonly product: Product;
  readonly formulary: FormularyDocument;
  /** The last weighing of the animal, or null. */
  readonly weighing: WeighingForDose | null;
  /** Age in whole days: the youngest and the oldest the animal may be. */
  readonly ageDays: { readonly youngest: number; readonly oldest: number };
  readonly today: CalendarDate;
  /** Instant, UTC text: how old the weight is. */
  readonly now: string;
  /** Syringes within reach, ids of the formulary. */
  readonly syringes: readonly SyringeId[];
  readonly lot?: LotForDose | null;
  readonly species?: string;
  /** Doses of the last weeks, for spacing by ingredient, courses and limits of a day. Left out: not looked at. */
  readonly recent?: readonly RecentDose[];
  /** Strength that a person read on the vial in the hand, mg per mL; left out or null: not read. */
  readonly strengthRead?: string | null;
  /** The vial that was made up: its strength and when. */
  readonly madeUp?: { readonly mg_per_ml: string; readonly at: string } | null;
  /** Id of the recipe by which it is diluted; null: as it comes. */
  readonly dilution?: string | null;
  readonly opened?: readonly OpenedGate[];
  /** The animal as the conditions of products ask about it. Left out: they are not looked at. */
  readonly about?: AboutConditions;
  /** What a veterinarian's order says of the amount. Left out or null: by the protocol, or outside of any. */
  readonly ordered?: OrderedAmount | null;
  /** Role of the person who is to give it. */
  readonly role?: Role;
}
