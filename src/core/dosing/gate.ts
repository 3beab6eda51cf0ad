import type { CalendarDate } from '../calendar.js';
import type { PersonId, ProductId, RecordId } from '../ids.js';
import type { Said } from '../said.js';
import type { StandingOrder } from './formulary.js';

/** How much a gate asks: stop, a second person who works it out alone, or only to be read. */
export type Severity = 'stop' | 'second-person' | 'note';

/** What a condition of a product may stop (product-condition.ts). */
const conditionGates = [
  'if-pregnant',
  'if-nursing',
  'if-ill',
  'if-fever',
  'if-dehydrated',
  'if-cold',
  'if-thin',
  'if-weak',
  'if-convalescent',
  'if-retrovirus',
  'if-infection',
  'if-wet-coat',
  'if-surgery',
  'if-age',
  'if-weight',
  'if-after-product',
  'if-after-chip',
] as const;

export const gateCodes = [
  'not-for-species',
  'never-for-cats',
  'lot-expired',
  'lot-withdrawn',
  'below-label-age',
  'below-label-weight',
  'weight-missing',
  'weight-stale',
  'weight-doubtful',
  'between-bands',
  'strength-unknown',
  'rule-for-another-strength',
  'salt-and-base',
  'outside-band',
  'small-volume',
  'no-syringe',
  'not-the-dose',
  'strength-twin',
  'not-made-up',
  'made-up-too-old',
  'no-recipe',
  'ingredient-too-soon',
  'not-this-way',
  'too-soon-in-course',
  'too-often',
  'much-for-one-site',
  'too-much-for-sites',
  'rinse-would-add',
  'not-yours-to-give',
  'amount-by-order',
  'limit-of-place',
  'under-least',
  'mark-in-band',
  'not-in-quarters',
  'not-in-this-unit',
  ...conditionGates,
] as const;
export type GateCode = (typeof gateCodes)[number];

/** Stops of the label, which the veterinarian's order for one animal may open. */
export const labelStops = [
  'below-label-age',
  'below-label-weight',
  ...conditionGates,
] as const satisfies readonly GateCode[];

export const isLabelStop = (code: GateCode): boolean => (labelStops as readonly GateCode[]).includes(code);

/** A veterinarian's word for one animal: it opens the named gates of one product until its last day, included. */
export interface OpenedGate {
  readonly record: RecordId;
  readonly gates: readonly GateCode[];
  readonly product: ProductId;
  readonly by: PersonId;
  readonly reason: string;
  readonly until: CalendarDate;
}

/** Something between the question and the needle. A gate that somebody's word has passed stays visible as a note. */
export interface Gate {
  readonly code: GateCode;
  readonly severity: Severity;
  readonly why: Said;
  /** The standing order, or the word for this one animal, that opened it, else null. */
  readonly passedBy: StandingOrder | OpenedGate | null;
  /** The code of observation by which people answer it; left out where nobody is asked. */
  readonly asks?: string;
}

export const gate = (code: GateCode, severity: Severity, why: Said, passedBy: Gate['passedBy'] = null): Gate => ({
  code,
  severity,
  why,
  passedBy,
});

const order: Readonly<Record<Severity, number>> = { stop: 0, 'second-person': 1, note: 2 };

/** Stops first, then what needs a second person, then notes; otherwise in the order they were found. */
export const bySeverity = (a: Gate, b: Gate): number => order[a.severity] - order[b.severity];

export const stops = (gates: readonly Gate[]): boolean => gates.some((each) => each.severity === 'stop');
