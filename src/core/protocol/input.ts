import type { Animal } from '../animal/animal.js';
import { addSpanTo, type CalendarDate, type DayNumber, dayNumber, type Span } from '../calendar.js';
import type { FormularyDocument } from '../dosing/formulary.js';
import type { ProductId, ScheduleId } from '../ids.js';
import type { ProtocolDocument, Schedule, SourcedAge } from './document.js';
import type { Progress } from './progress.js';

/** Products and kits by the classes that schedules ask for. */
export type Catalogue = Pick<FormularyDocument, 'products' | 'kits'>;

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
  >;
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
  readonly scheduleOf: (id: ScheduleId) => Schedule | undefined;
  readonly progressOf: (schedule: Schedule) => Progress;
}

/** The day on which an age is reached. */
export const ageReached = (subject: Subject, age: SourcedAge): DayNumber =>
  addSpanTo(age.of === 'youngest' ? subject.born.youngest : subject.born.oldest, age.span);

export interface Known {
  readonly state: 'present' | 'absent' | 'unknown';
  /** Day of the last observation, also when it has run out. */
  readonly since: DayNumber | null;
  /** Last day it counts; null when open. */
  readonly until: DayNumber | null;
}

/**
 * What is known about something on a day, from the last observation made up to today. It counts to its own last day,
 * else for as long as `lasts` says, else until somebody says otherwise; after that it is unknown again.
 */
export function known(subject: Subject, code: string, on: DayNumber, lasts: Span | null = null): Known {
  let last: Known = { state: 'unknown', since: null, until: null };
  for (const one of subject.input.animal.observations) {
    if (one.code !== code) continue;
    const since = dayNumber(one.on);
    if (since > subject.today || since > on || (last.since !== null && since < last.since)) continue;
    const until = one.until !== null ? dayNumber(one.until) : lasts === null ? null : addSpanTo(since, lasts);
    last = { state: until !== null && on > until ? 'unknown' : one.state, since, until };
  }
  return last;
}

const classIndexes = new WeakMap<Catalogue, ReadonlyMap<ProductId, readonly string[]>>();

function classIndex(catalogue: Catalogue): ReadonlyMap<ProductId, readonly string[]> {
  const made = classIndexes.get(catalogue);
  if (made !== undefined) return made;
  const index = new Map(catalogue.products.map((product) => [product.id, product.classes]));
  classIndexes.set(catalogue, index);
  return index;
}

/** Classes of a product, from the formulary in force or the newest earlier one that has it; null when none has. */
export function classesOf(input: ProtocolInput, product: ProductId): readonly string[] | null {
  for (const catalogue of [input.formulary, ...(input.formerFormularies ?? [])]) {
    const classes = catalogue === null ? undefined : classIndex(catalogue).get(product);
    if (classes !== undefined) return classes;
  }
  return null;
}

export const asNumber = (date: CalendarDate | null): DayNumber | null => (date === null ? null : dayNumber(date));
