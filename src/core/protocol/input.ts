import { type Animal, byDay } from '../animal/animal.js';
import type { SectionRank } from '../biosecurity/section.js';
import { addSpanTo, type CalendarDate, type DayNumber, dayNumber, type Span } from '../calendar.js';
import { derived } from '../derived.js';
import type { FormularyDocument } from '../dosing/formulary.js';
import type { ProductId, ScheduleId } from '../ids.js';
import { codesOf, type ProtocolDocument, type Schedule, type SourcedAge, type Trigger } from './document/document.js';
import type { Progress } from './progress.js';

/** Products and kits by the classes that schedules ask for. */
export type Catalogue = Pick<FormularyDocument, 'products' | 'kits'> &
  Partial<Pick<FormularyDocument, 'standingOrders'>>;

/** What the engine looks at: the animal as the record shows it, and what the shelter has to treat it with. */
export interface ProtocolInput {
  readonly animal: Pick<
    Animal,
    | 'id'
    | 'born'
    | 'arrivedOn'
    | 'sex'
    | 'neutered'
    | 'left'
    | 'history'
    | 'observations'
    | 'holds'
    | 'chip'
    | 'weighings'
    | 'runs'
  > &
    Partial<Pick<Animal, 'scans' | 'orders' | 'followUps'>>;
  /** Infection rank of the section it is in; null or left out when nobody knows where it is. */
  readonly rank?: SectionRank | null;
  /** The formulary in force; null when none is signed, and then no product can satisfy anything. */
  readonly formulary: Catalogue | null;
  /** Earlier formularies, newest first: a product taken off the list still counts for what was given then. */
  readonly formerFormularies?: readonly Catalogue[];
}

/** One animal on one day under one protocol, with its days as numbers and the schedules worked out so far. */
export interface Subject {
  readonly input: ProtocolInput;
  readonly protocol: ProtocolDocument;
  readonly today: DayNumber;
  /** First and last day on which it may have been born: the oldest and the youngest it may be. */
  readonly born: { readonly oldest: DayNumber; readonly youngest: DayNumber };
  readonly arrived: DayNumber;
  /** Days on which a chip was put in here. */
  readonly implants: readonly DayNumber[];
  readonly scheduleOf: (id: ScheduleId) => Schedule | undefined;
  readonly progressOf: (schedule: Schedule) => Progress;
}

/** The day on which an age is reached. */
export const ageReached = (subject: Subject, age: Pick<SourcedAge, 'of' | 'span'>): DayNumber =>
  addSpanTo(age.of === 'youngest' ? subject.born.youngest : subject.born.oldest, age.span);

/** What is looked at to say what has been seen. */
export interface Looked {
  readonly input: { readonly animal: Pick<Animal, 'observations'> };
  readonly today: DayNumber;
}

export interface Known {
  readonly state: 'present' | 'absent' | 'unknown';
  /** Day of the last observation, also when it has run out. */
  readonly since: DayNumber | null;
  /** Last day it counts; null when open. */
  readonly until: DayNumber | null;
}

/**
 * What is known about something on a day, from the last observation made up to today. It counts to its own last day,
 * else for as long as `lasts` says, else until somebody says otherwise; after that it is unknown again. What the medical
 * team has seen lasts as long as they said, though others see it again and give it less, or see it no more.
 */
export const known = (subject: Looked, code: string, on: DayNumber, lasts: Span | null = null): Known =>
  look(subject, code, on, lasts).last;

/** What is known, and the last day on which it was said to be over by somebody whose word ends it. */
function look(
  subject: Looked,
  code: string,
  on: DayNumber,
  lasts: Span | null,
): { readonly last: Known; readonly over: DayNumber } {
  let over = Number.NEGATIVE_INFINITY;
  let last: Known = { state: 'unknown', since: null, until: null };
  /** Last day of what the medical team saw, null for an open one; undefined while they saw nothing. */
  let atLeast: DayNumber | null | undefined;
  for (const one of byDay(subject.input.animal.observations)) {
    if (one.code !== code) continue;
    const since = dayNumber(one.on);
    if (since > subject.today || since > on) break;
    const own = one.until !== null ? dayNumber(one.until) : lasts === null ? null : addSpanTo(since, lasts);
    if (one.state === 'absent') {
      const guarded = atLeast !== undefined && (atLeast === null || since <= atLeast);
      // What the lamp shows is looked for anew each time.
      if (guarded && one.medical !== true && one.answer === undefined) continue;
      atLeast = undefined;
      over = since;
    } else if (one.medical === true) atLeast = own;
    const until = atLeast === undefined || own === null ? own : atLeast === null ? null : Math.max(own, atLeast);
    last = { state: until !== null && on > until ? 'unknown' : one.state, since, until };
  }
  return { last, over };
}

/** First day of the present stretch in which something has been seen, up to today; null when it is not so today. */
export function presentSince(subject: Subject, code: string): DayNumber | null {
  const { last, over } = look(subject, code, subject.today, null);
  if (last.state !== 'present') return null;
  const days = subject.input.animal.observations.flatMap((one) =>
    one.code === code && one.state === 'present' ? [dayNumber(one.on)] : [],
  );
  return Math.min(...days.filter((day) => day >= over && day <= subject.today));
}

/** Day of the last chip put in here, up to today; null when none was. */
export function implantedOn(subject: Subject): DayNumber | null {
  const past = subject.implants.filter((on) => on <= subject.today);
  return past.length === 0 ? null : Math.max(...past);
}

/** The day since which a target of this trigger is called for; null while it is not. Any day for one without. */
export function calledSince(subject: Subject, on: Trigger): DayNumber | null {
  switch (on.is) {
    case 'age':
    case 'arrival':
      return Number.NEGATIVE_INFINITY;
    case 'observation':
    case 'clock': {
      // Of several things seen, the last.
      let last: DayNumber | null = null;
      for (const code of codesOf(on)) {
        const { state, since } = known(subject, code, subject.today);
        if (state === 'present' && since !== null && (last === null || since > last)) last = since;
      }
      return last;
    }
    case 'while':
      return presentSince(subject, on.code);
    case 'implant':
      return implantedOn(subject);
  }
}

const classIndex = derived(
  (catalogue: Catalogue): ReadonlyMap<ProductId, readonly string[]> =>
    new Map(catalogue.products.map((product) => [product.id, product.classes])),
);

const ingredientIndex = derived(
  (catalogue: Catalogue): ReadonlyMap<ProductId, readonly string[]> =>
    new Map(catalogue.products.map(({ id, ingredients }) => [id, ingredients.map((one) => one.name)])),
);

const claimIndex = derived(
  (catalogue: Catalogue): ReadonlyMap<ProductId, readonly string[]> =>
    new Map(catalogue.products.map(({ id, claims }) => [id, claims?.of ?? []])),
);

/** What the label of a product claims, found as its classes are; none for a product nobody knows. */
function claimsOf(
  input: Pick<ProtocolInput, 'formulary' | 'formerFormularies'>,
  product: ProductId,
): readonly string[] {
  for (const catalogue of [input.formulary, ...(input.formerFormularies ?? [])]) {
    const found = catalogue === null ? undefined : claimIndex(catalogue).get(product);
    if (found !== undefined) return found;
  }
  return [];
}

/**
 * What a product is to a schedule that is given: it satisfies it by its class, is accepted by the claim of its label, is only
 * recorded, or nothing (null).
 */
export function worthFor(
  input: Pick<ProtocolInput, 'formulary' | 'formerFormularies'>,
  { satisfiedBy, claims, recordedOnly }: Pick<Schedule, 'satisfiedBy' | 'claims' | 'recordedOnly'>,
  product: ProductId,
): 'satisfies' | 'accepted' | Schedule['recordedOnly'][number] | null {
  const classes = classesOf(input, product) ?? [];
  if (satisfiedBy.some((wanted) => classes.includes(wanted))) return 'satisfies';
  const only = recordedOnly.find((one) => classes.includes(one.class));
  if (only !== undefined) return only;
  return claims.length > 0 && claimsOf(input, product).some((one) => claims.includes(one)) ? 'accepted' : null;
}

/** Active ingredients of a product, found as its classes are; none for a product nobody knows. */
export function ingredientsOf(input: ProtocolInput, product: ProductId): readonly string[] {
  for (const catalogue of [input.formulary, ...(input.formerFormularies ?? [])]) {
    const found = catalogue === null ? undefined : ingredientIndex(catalogue).get(product);
    if (found !== undefined) return found;
  }
  return [];
}

/** Classes of a product, from the formulary in force or the newest earlier one that has it; null when none has. */
export function classesOf(
  input: Pick<ProtocolInput, 'formulary' | 'formerFormularies'>,
  product: ProductId,
): readonly string[] | null {
  for (const catalogue of [input.formulary, ...(input.formerFormularies ?? [])]) {
    const classes = catalogue === null ? undefined : classIndex(catalogue).get(product);
    if (classes !== undefined) return classes;
  }
  return null;
}

export const asNumber = (date: CalendarDate | null): DayNumber | null => (date === null ? null : dayNumber(date));
