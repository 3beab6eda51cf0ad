import type { HistoryEvent } from '../animal/animal.js';
import { addSpanTo, type DayNumber, dayNumber, type Span } from '../calendar.js';
import type { SourceId } from '../ids.js';
import type { Schedule } from './document.js';
import { classesOf, ingredientsOf, type ProtocolInput } from './input.js';
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
    if (schedule.satisfiedBy.includes(chipRead)) done.push(...chipReads(input));
  }
  return isInOrder(done) ? done : done.sort(inOrder);
}

/** The code that stands for the animal's chip read in the animal again. */
const chipRead = 'chip-read';

/**
 * Scans in which the chip put in here was read again on a later day: the first whatever it was for, and those made to
 * check it. Scans that only make sure of the animal are no checks of their own.
 */
function chipReads({ animal }: ProtocolInput): Done[] {
  const implant = animal.history.findLast((event) => event.what === 'chipped' && event.implanted === true);
  if (implant?.what !== 'chipped') return [];
  const later = (animal.scans ?? []).filter(
    ({ target, code, on }) => target === 'animal' && code === implant.code && on > implant.on,
  );
  return later
    .filter(({ occasion }, index) => index === 0 || occasion === 'recheck' || occasion === 'exit')
    .map((scan) => doneOf(scan, null));
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

/** A stretch of days on which a schedule keeps away from something given. */
export interface Away {
  /** First day of it. */
  readonly begins: DayNumber;
  /** First day that is free again. */
  readonly ends: DayNumber;
  readonly span: Span;
  readonly source: SourceId;
}

/** Every stretch that products given up to a day make a schedule keep away from, by their class or ingredient. */
export function keptAway(schedule: Schedule, input: ProtocolInput, upTo: DayNumber): Away[] {
  const away: Away[] = [];
  if (schedule.apart.length === 0 && schedule.apartIngredients.length === 0) return away;
  for (const event of input.animal.history) {
    if (event.what !== 'given' || event.substandard === 'not-taken') continue;
    const day = dayNumber(event.on);
    if (day > upTo) continue;
    const classes = classesOf(input, event.product) ?? [];
    const ingredients = ingredientsOf(input, event.product);
    const rules = [
      ...schedule.apart.filter((one) => classes.includes(one.class)),
      ...schedule.apartIngredients.filter((one) => ingredients.includes(one.ingredient)),
    ];
    for (const { begins, ends, source } of rules) {
      away.push({ begins: addSpanTo(day, begins), ends: addSpanTo(day, ends), span: ends, source });
    }
  }
  return away;
}
