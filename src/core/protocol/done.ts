import type { HistoryEvent } from '../animal/animal.js';
import { type DayNumber, dayNumber } from '../calendar.js';
import type { ProductId, RecordId } from '../ids.js';
import type { Schedule } from './document.js';
import { classesOf, type ProtocolInput } from './input.js';

/** Why something that was done does not count, or does only in part; words in the catalogue under `due.reason.`. */
export type Reason =
  | 'in-time'
  | 'grace'
  | 'too-young'
  | 'too-old'
  | 'too-soon'
  | 'too-near-other-product'
  | 'same-day'
  | 'series-complete'
  | 'not-recommended'
  | 'in-the-future'
  | 'before-birth'
  | 'product-does-not-satisfy'
  | 'product-of-other-class'
  | 'product-unknown'
  | 'expired-lot'
  | 'withdrawn-lot'
  | 'not-taken'
  | 'test-invalid'
  | 'test-outside-window'
  | 'test-abandoned'
  | 'running'
  | 'not-confirmed';

/** Something in the past of the animal that concerns one schedule. */
export interface Done {
  readonly record: RecordId;
  readonly on: DayNumber;
  readonly at: string;
  /** What is wrong with it whatever its date; null when only its date matters. */
  readonly fault: Reason | null;
  /** Whether the next one has to keep its interval from this one. */
  readonly spaces: boolean;
  readonly result: 'negative' | 'reactive' | null;
}

/** Everything in the history that concerns a schedule, in order of happening whatever the order of the records. */
export function doneFor(schedule: Schedule, input: ProtocolInput): Done[] {
  const done: Done[] = [];
  for (const event of input.animal.history) {
    const one = concerning(schedule, event, input);
    if (one !== null) done.push(one);
  }
  if (schedule.action === 'look') {
    for (const seen of input.animal.observations) {
      if (!schedule.satisfiedBy.includes(seen.code)) continue;
      done.push({ ...plain, record: seen.record, on: dayNumber(seen.on), at: seen.on });
    }
  }
  return done.sort(inOrder);
}

const plain = { fault: null, spaces: true, result: null } as const;

const inOrder = (a: Done, b: Done): number =>
  a.on - b.on || (a.at < b.at ? -1 : a.at > b.at ? 1 : a.record < b.record ? -1 : a.record > b.record ? 1 : 0);

function concerning(schedule: Schedule, event: HistoryEvent, input: ProtocolInput): Done | null {
  switch (event.what) {
    case 'given':
      return schedule.action === 'give' ? given(schedule, event, input) : null;
    case 'tested':
      return schedule.action === 'test' && event.schedule === schedule.id ? tested(event) : null;
    case 'chipped':
      if (schedule.action !== 'chip') return null;
      return { ...plain, ...when(event), fault: event.confirmed ? null : 'not-confirmed' };
    case 'weighed':
      return schedule.action === 'weigh' ? { ...plain, ...when(event) } : null;
    case 'not-given':
      return null;
  }
}

type Given = Extract<HistoryEvent, { what: 'given' }>;
type Tested = Extract<HistoryEvent, { what: 'tested' }>;

const when = (event: HistoryEvent): Pick<Done, 'record' | 'on' | 'at'> => ({
  record: event.record,
  on: dayNumber(event.on),
  at: event.at,
});

/**
 * A product counts for every schedule that asks for one of its classes, whatever schedule it was written under: a
 * combination counts for each of its parts, and a wormer given by mistake is a wormer given.
 */
function given(schedule: Schedule, event: Given, input: ProtocolInput): Done | null {
  const meant = event.schedule === schedule.id;
  const classes = classesOf(input, event.product);
  if (classes === null) {
    return meant ? { ...plain, ...when(event), fault: 'product-unknown' } : null;
  }
  if (schedule.satisfiedBy.some((wanted) => classes.includes(wanted))) {
    // What went down or under the skin keeps its interval even from a bad lot; what was not taken was not given.
    return { ...plain, ...when(event), fault: event.substandard, spaces: event.substandard !== 'not-taken' };
  }
  const recorded = schedule.recordedOnly.find((one) => classes.includes(one.class));
  if (recorded !== undefined) {
    return { ...plain, ...when(event), fault: 'product-does-not-satisfy', spaces: recorded.spaces };
  }
  return meant ? { ...plain, ...when(event), fault: 'product-of-other-class', spaces: false } : null;
}

function tested(event: Tested): Done {
  const base = { ...plain, ...when(event) };
  switch (event.result) {
    case 'negative':
    case 'reactive':
      return { ...base, result: event.result };
    case 'invalid':
      return { ...base, fault: 'test-invalid' };
    case 'not-valid':
      return { ...base, fault: 'test-outside-window' };
    case 'abandoned':
      return { ...base, fault: 'test-abandoned' };
    case 'running':
      return { ...base, fault: 'running', spaces: false };
  }
}

/** Days on which a product of a class was given, for rules that keep products apart. */
export function daysGiven(input: ProtocolInput, wanted: string): DayNumber[] {
  const days: DayNumber[] = [];
  for (const event of input.animal.history) {
    if (event.what !== 'given' || event.substandard === 'not-taken') continue;
    if (classOfProduct(input, event.product, wanted)) days.push(dayNumber(event.on));
  }
  return days.sort((a, b) => a - b);
}

const classOfProduct = (input: ProtocolInput, product: ProductId, wanted: string): boolean =>
  classesOf(input, product)?.includes(wanted) ?? false;
