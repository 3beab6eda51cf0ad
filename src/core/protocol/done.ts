import type { HistoryEvent } from '../animal/animal.js';
import { type DayNumber, dayNumber } from '../calendar.js';
import type { ProductId } from '../ids.js';
import type { Schedule } from './document.js';
import { classesOf, type ProtocolInput } from './input.js';
import type { Done, Reason } from './progress.js';

/** Everything in the history that concerns a schedule, in order of happening whatever the order of the records. */
export function doneFor(schedule: Schedule, input: ProtocolInput): Done[] {
  const done: Done[] = [];
  for (const event of input.animal.history) {
    const one = concerning(schedule, event, input);
    if (one !== null) done.push(one);
  }
  if (schedule.action === 'look') {
    for (const { record, on, code } of input.animal.observations) {
      if (schedule.satisfiedBy.includes(code)) done.push(doneOf({ record, on, at: on }, null));
    }
  }
  return isInOrder(done) ? done : done.sort(inOrder);
}

const inOrder = (a: Done, b: Done): number =>
  a.on - b.on || (a.at < b.at ? -1 : a.at > b.at ? 1 : a.record < b.record ? -1 : a.record > b.record ? 1 : 0);

const isInOrder = (done: readonly Done[]): boolean =>
  done.every((one, index) => {
    const before = done[index - 1];
    return before === undefined || inOrder(before, one) <= 0;
  });

type Event = Pick<HistoryEvent, 'record' | 'on' | 'at'>;

const doneOf = (event: Event, fault: Reason | null, spaces = true, result: Done['result'] = null): Done => ({
  record: event.record,
  on: dayNumber(event.on),
  at: event.at,
  fault,
  spaces,
  result,
});

function concerning(schedule: Schedule, event: HistoryEvent, input: ProtocolInput): Done | null {
  switch (event.what) {
    case 'given':
      return schedule.action === 'give' ? given(schedule, event, input) : null;
    case 'tested':
      return schedule.action === 'test' && event.schedule === schedule.id ? tested(event) : null;
    case 'chipped':
      return schedule.action === 'chip' ? doneOf(event, event.confirmed ? null : 'not-confirmed') : null;
    case 'weighed':
      return schedule.action === 'weigh' ? doneOf(event, null) : null;
    case 'not-given':
      return null;
  }
}

type Given = Extract<HistoryEvent, { what: 'given' }>;
type Tested = Extract<HistoryEvent, { what: 'tested' }>;

/**
 * A product counts for every schedule that asks for one of its classes, whatever schedule it was written under: a
 * combination counts for each of its parts, and a wormer given by mistake is a wormer given.
 */
function given(schedule: Schedule, event: Given, input: ProtocolInput): Done | null {
  const meant = event.schedule === schedule.id;
  const classes = classesOf(input, event.product);
  if (classes === null) return meant ? doneOf(event, 'product-unknown') : null;
  if (schedule.satisfiedBy.some((wanted) => classes.includes(wanted))) {
    // What went down or under the skin keeps its interval even from a bad lot; what was not taken was not given.
    return doneOf(event, event.substandard, event.substandard !== 'not-taken');
  }
  const recorded = schedule.recordedOnly.find((one) => classes.includes(one.class));
  if (recorded !== undefined) return doneOf(event, 'product-does-not-satisfy', recorded.spaces);
  return meant ? doneOf(event, 'product-of-other-class', false) : null;
}

function tested(event: Tested): Done {
  switch (event.result) {
    case 'negative':
    case 'reactive':
      return doneOf(event, null, true, event.result);
    case 'invalid':
      return doneOf(event, 'test-invalid');
    case 'not-valid':
      return doneOf(event, 'test-outside-window');
    case 'abandoned':
      return doneOf(event, 'test-abandoned');
    case 'running':
      return doneOf(event, 'running', false);
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
