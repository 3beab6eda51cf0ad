import type { HistoryEvent } from '../../animal/animal.js';
import { addSpanTo, type CalendarDate, type DayNumber, dayNumber, type Span } from '../../calendar.js';
import type { SourceId } from '../../ids.js';
import { compareTexts } from '../../in-order.js';
import type { ProtocolDocument, Schedule } from '../document/document.js';
import { classesOf, ingredientsOf, type ProtocolInput } from '../input.js';
import type { Done, Reason } from '../progress.js';
import { placesIn, type Route, routesIn, routesOf } from './routes.js';

/**
 * Everything in the history, by the place in the protocol of the schedules it concerns, in order of happening whatever
 * the order of the records. A product counts for every schedule that asks for one of its classes, whatever schedule it
 * was written under: a combination counts for each of its parts, and a wormer given by mistake is a wormer given.
 */
export function gatherDone(input: ProtocolInput, protocol: ProtocolDocument): Gathered {
  const { tests, chips, weighings, looks, byId } = placesIn(protocol);
  const known = routesIn(input, protocol);
  const gathered: (Done[] | undefined)[] = new Array(protocol.schedules.length);
  const implants: DayNumber[] = [];
  const put = (place: number, done: Done): void => {
    const there = gathered[place];
    if (there === undefined) gathered[place] = [done];
    else there.push(done);
  };
  for (const event of input.animal.history) {
    switch (event.what) {
      case 'given': {
        let found = known.get(event.product);
        if (found === undefined) {
          found = routesOf(input, protocol, event.product);
          known.set(event.product, found);
        }
        putGiven(event, found, event.schedule === null ? undefined : byId.get(event.schedule), put);
        break;
      }
      case 'tested': {
        const place = event.schedule === null ? undefined : tests.get(event.schedule);
        if (place !== undefined) put(place, tested(event));
        break;
      }
      case 'chipped':
        if (event.implanted === true) implants.push(dayNumber(event.on));
        for (const place of chips) put(place, doneOf(event, event.confirmed ? null : 'not-confirmed'));
        break;
      case 'weighed':
        for (const place of weighings) put(place, doneOf(event, null));
        break;
      case 'not-given':
        break;
    }
  }
  for (const seen of input.animal.observations) {
    for (const place of looks.get(seen.code) ?? []) put(place, lookOf(seen.record, seen.on));
  }
  const reads = looks.get(chipRead);
  if (reads !== undefined) {
    for (const done of chipReads(input)) for (const place of reads) put(place, done);
  }
  for (const done of gathered) if (done !== undefined && !isInOrder(done)) done.sort(inOrder);
  return { byPlace: gathered, implants };
}

export interface Gathered {
  /** What was done, by place of schedule; nothing where nothing was. */
  readonly byPlace: readonly (readonly Done[] | undefined)[];
  /** Days on which a chip was put in here. */
  readonly implants: readonly DayNumber[];
}

/** The code that stands for the animal's chip read in the animal again. */
const chipRead = 'chip-read';

/**
 * Scans in which the chip put in here was read again on a later day: the first whatever it was for, and those made to
 * check it. Scans that only make sure of the animal are no checks of their own.
 */
function chipReads({ animal }: ProtocolInput): Done[] {
  const { scans } = animal;
  if (scans === undefined || scans.length === 0) return [];
  const implant = animal.history.findLast((event) => event.what === 'chipped' && event.implanted === true);
  if (implant?.what !== 'chipped') return [];
  const later = scans.filter(({ target, code, on }) => target === 'animal' && code === implant.code && on > implant.on);
  return later
    .filter(({ occasion }, index) => index === 0 || occasion === 'recheck' || occasion === 'exit')
    .map((scan) => doneOf(scan, null));
}

const inOrder = (a: Done, b: Done): number =>
  a.on - b.on || compareTexts(a.at, b.at) || compareTexts(a.record, b.record);

/** Most histories come in order; to look costs less than to sort, by a fifth of a whole forecast. */
function isInOrder(done: readonly Done[]): boolean {
  let before: Done | undefined;
  for (const one of done) {
    if (before !== undefined && inOrder(before, one) > 0) return false;
    before = one;
  }
  return true;
}

interface Event {
  readonly record: Done['record'];
  readonly on: CalendarDate;
  readonly at: string;
}

/** What was only seen has a day and no time. */
const lookOf = (record: Done['record'], on: CalendarDate): Done => ({
  record,
  on: dayNumber(on),
  at: on,
  fault: null,
  spaces: true,
  result: null,
});

const doneOf = (event: Event, fault: Reason | null, spaces = true, result: Done['result'] = null): Done => ({
  record: event.record,
  on: dayNumber(event.on),
  at: event.at,
  fault,
  spaces,
  result,
});

type Given = Extract<HistoryEvent, { what: 'given' }>;
type Tested = Extract<HistoryEvent, { what: 'tested' }>;

function putGiven(
  event: Given,
  found: readonly Route[] | null,
  meant: { readonly schedule: Schedule; readonly place: number } | undefined,
  put: (place: number, done: Done) => void,
): void {
  let reached = false;
  for (const { place, recordedOnly } of found ?? []) {
    // What went down or under the skin keeps its interval even from a bad lot; what was not taken was not given.
    if (recordedOnly !== null) put(place, doneOf(event, 'product-does-not-satisfy', recordedOnly.spaces));
    else put(place, doneOf(event, event.substandard, event.substandard !== 'not-taken'));
    if (place === meant?.place) reached = true;
  }
  if (reached || meant?.schedule.action !== 'give') return;
  if (found === null) put(meant.place, doneOf(event, 'product-unknown'));
  else put(meant.place, doneOf(event, 'product-of-other-class', false));
}

function tested(event: Tested): Done {
  switch (event.result) {
    case 'negative':
    case 'reactive':
      return doneOf(event, null, true, event.result);
    case 'invalid':
      return doneOf(event, 'test-invalid');
    case 'not-valid':
      return doneOf(event, event.fault === undefined ? 'test-outside-window' : `test-${event.fault}`);
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
  if (schedule.apart.length === 0 && schedule.apartIngredients.length === 0) return [];
  const away: Away[] = [];
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
