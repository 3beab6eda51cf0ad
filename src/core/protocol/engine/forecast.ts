import { type CalendarDate, type DayNumber, dayFromNumber } from '../../calendar.js';
import { derived } from '../../derived.js';
import type { KitTypeId, ProductId, SourceId } from '../../ids.js';
import type { Said } from '../../said.js';
import { notStopped } from '../about-conditions.js';
import type { ProtocolDocument, Schedule } from '../document/document.js';
import type { DueItem, DueStatus, Hold } from '../due.js';
import type { Catalogue, ProtocolInput, Subject } from '../input.js';
import type { Progress } from '../progress.js';
import { forecastOrders } from '../vet-orders/order-forecast.js';
import { type Dates, datesOf } from './dates.js';
import {
  endedSaid,
  keptUpSaid,
  notHereSaid,
  notNeededSaid,
  type Open,
  onNeedAgainSaid,
  onNeedSaid,
  openSaid,
} from './explain.js';
import { withFinding } from './finding.js';
import { standstillOn } from './holds.js';
import { productsFor } from './products.js';
import { inUse, subjectOf, walkedThrough } from './subject.js';
import { withConfirm } from './to-confirm.js';
import { traceOf } from './trace.js';
import { whenAgeIsUnknown } from './unknown-age.js';
import { isCalledFor, settle } from './walk.js';

/**
 * What comes next for one animal, and when: one item for each schedule that the protocol uses, in its order, then one
 * for each order of a veterinarian; none for an animal that has left. Next dates count from the day the last one was really done, so that early or late never makes
 * two of one. Total: any history gives an answer. `today` is the shelter's day.
 * Source of the model: CDC, CDSi logic specification 4.5, chapters 4 and 7.
 */
export function forecast(input: ProtocolInput, protocol: ProtocolDocument, today: CalendarDate): DueItem[] {
  const { left } = input.animal;
  if (left !== null && left.on <= today) return [];
  const items = forecastOf(input, protocol, inUse(protocol), today);
  const orders = forecastOrders(input, protocol, today);
  return orders.length === 0 ? items : [...items, ...orders];
}

/** The items of some schedules, in their order, of an animal that has not left. */
export function forecastOf(
  input: ProtocolInput,
  protocol: ProtocolDocument,
  asked: readonly Schedule[],
  today: CalendarDate,
): DueItem[] {
  const forecastFor = (subject: Subject): DueItem[] => asked.map((schedule) => forecastOne(subject, schedule));
  const subjectFor = (animal: ProtocolInput['animal']): Subject => subjectOf({ ...input, animal }, protocol, today);
  const own = walkedThrough(input, protocol, asked, today);
  const seen = (items: readonly DueItem[]): DueItem[] =>
    asked.map((schedule, at) => withFinding(own, schedule, withConfirm(own, schedule, items[at] as DueItem)));
  const items = forecastFor(own);
  const { born } = input.animal;
  if (born.basis !== 'unknown') return seen(items);
  const asOldest = forecastFor(subjectFor({ ...input.animal, born: { ...born, latest: born.earliest } }));
  const asYoungest = forecastFor(subjectFor({ ...input.animal, born: { ...born, earliest: born.latest } }));
  return seen(
    items.map((item, at) => whenAgeIsUnknown(item, asOldest[at] ?? item, asYoungest[at] ?? item, protocol.ageUnknown)),
  );
}

interface Next {
  readonly status: DueStatus;
  readonly dose: number;
  readonly dates: Dates | null;
  /** Set when the item has no due day but may not be done before one, as after a treatment repeated only on need. */
  readonly notBefore: DayNumber | null;
  readonly because: Said;
  readonly hold: Hold | null;
  readonly asks: readonly Said[];
  /** Times of the day of the open target, when it is done several times a day. */
  readonly times: DueItem['times'];
}

function forecastOne(subject: Subject, schedule: Schedule): DueItem {
  const next = nextOf(subject, schedule, subject.progressOf(schedule));
  const { dates } = next;
  const offer = offerFor(schedule, subject.input.formulary);
  const on = Math.max(subject.today, dates?.due ?? subject.today);
  return {
    animal: subject.input.animal.id,
    schedule: schedule.id,
    scheduleName: schedule.name,
    action: schedule.action,
    dose: next.dose,
    status: next.status,
    earliest: dates === null ? asDate(next.notBefore) : dayFromNumber(dates.earliest),
    due: dates === null ? null : dayFromNumber(dates.due),
    overdueAfter: dates === null ? null : asDate(dates.overdueAfter),
    latest: dates === null ? null : asDate(dates.latest),
    hold: next.hold,
    asks: next.asks,
    times: next.times,
    products: notStopped(subject.input, offer.products, on, subject.today).products,
    kitTypes: offer.kitTypes,
    because: next.because,
    sources: dates === null ? [] : sourcesOf(dates),
    protocol: stampOf(subject.protocol),
    trace: dates === null ? [] : traceOf(dates),
  };
}

const stampOf = derived(({ id, version }: ProtocolDocument): DueItem['protocol'] => ({ id, version }));

const asDate = (number: DayNumber | null): CalendarDate | null => (number === null ? null : dayFromNumber(number));

/** Sources of the steps, first the deciding one's, each once. */
function sourcesOf({ steps, decided }: Dates): SourceId[] {
  const first = decided.kind.source;
  const sources: SourceId[] = first === null ? [] : [first];
  for (const { kind } of steps) {
    if (kind.source !== null && !sources.includes(kind.source)) sources.push(kind.source);
  }
  return sources;
}

const nothingAsked: readonly Said[] = [];

/** An item that asks for nothing now; `notBefore` is a day before which it may not be done. */
const closed = (status: DueStatus, dose: number, because: Said, notBefore: DayNumber | null = null): Next => ({
  status,
  dose,
  dates: null,
  notBefore,
  because,
  hold: null,
  asks: nothingAsked,
  times: undefined,
});

function nextOf(subject: Subject, schedule: Schedule, progress: Progress): Next {
  const { series } = progress;
  if (!isHere(subject, schedule)) return closed('not-recommended', 1, notHereSaid(schedule));
  if (series === null) return closed('not-recommended', 1, notNeededSaid(schedule));
  if (hasChipAlready(subject, schedule)) return closed('complete', 1, endedSaid(subject, schedule, progress));

  // Each turn either answers or passes over a target, so the way through the series ends.
  const { place: first, lapsed, lastResult, last } = progress;
  const way = { of: schedule.id, place: first, doses: progress.doses.slice(), lapsed, lastResult, last };
  for (let target = series.targets[way.place]; target !== undefined; target = series.targets[way.place]) {
    // Nothing was ever done and nothing calls for it: no date is worked out.
    if (progress.last === null && way.doses.length === 0 && !isCalledFor(subject, target, progress)) {
      return closed('not-recommended', 1, onNeedSaid(schedule));
    }
    const dates = datesOf(subject, schedule, target, way);
    const { place } = way;
    const dose = way.doses.length + 1;
    settle(subject, series, way, Math.max(subject.today, dates.due));
    // By that day the series may have moved on, or begun again after too long a gap.
    const moved = way.place !== place || way.doses.length + 1 !== dose;
    if (!moved) {
      const here = { ...progress, lapsed: way.lapsed };
      return openOr(subject, { schedule, series, progress: here, target, dose, dates });
    }
  }
  return closed('complete', way.doses.length + 1, endedSaid(subject, schedule, progress));
}

/** The item of a target that is open, if anything calls for it and it is not too late. */
function openOr(subject: Subject, open: Open): Next {
  const { schedule, progress, target, dose, dates } = open;
  const { today } = subject;
  if (!isCalledFor(subject, target, progress)) {
    const because =
      schedule.action === 'test' && dose > 1
        ? endedSaid(subject, schedule, progress)
        : onNeedAgainSaid(schedule, progress, dates.earliest);
    return closed(dose > 1 ? 'complete' : 'not-recommended', dose, because, dates.earliest);
  }
  if (dates.latest !== null && Math.max(today, dates.earliest) > dates.latest) {
    return closed('aged-out', dose, endedSaid(subject, schedule, progress, dates.latest));
  }
  const because = openSaid(subject, open);
  const times = timesOf(subject, open);
  if (target.upkeep && today < dates.due) {
    const kept = keptUpSaid(endedSaid(subject, schedule, progress), because);
    return { status: 'complete', dose, dates, notBefore: null, because: kept, hold: null, asks: nothingAsked, times };
  }
  const { hold, asks } = standstillOn(subject, schedule, Math.max(today, dates.due));
  return { status: statusOf(today, dates, hold), dose, dates, notBefore: null, because, hold, asks, times };
}

/** An animal that came with a chip has one, even when nothing in the history says how. */
function hasChipAlready(subject: Subject, schedule: Schedule): boolean {
  return schedule.action === 'chip' && subject.input.animal.chip?.confirmed === true;
}

/** The section it is in is one that the schedule is for; an animal whose place nobody knows is in none. */
function isHere({ input }: Subject, { where }: Schedule): boolean {
  return where === null || (input.rank != null && where.ranks.includes(input.rank));
}

/** The times of the day that is due, those already done marked in their order; undefined for once a day or less. */
function timesOf(subject: Subject, { target, progress, dates }: Open): DueItem['times'] {
  if (target.times.length === 0) return undefined;
  const day = Math.max(subject.today, dates.due);
  const done = progress.doses.filter((one) => one === day).length;
  const on = dayFromNumber(day);
  return target.times.map((at, index) => ({ on, at, state: index < done ? 'done' : 'open', why: null }));
}

function statusOf(today: DayNumber, dates: Dates, hold: Hold | null): DueStatus {
  if (hold !== null) return 'on-hold';
  if (today < dates.due) return 'not-yet';
  return dates.overdueAfter !== null && today > dates.overdueAfter ? 'overdue' : 'due';
}

interface Offer {
  readonly products: readonly ProductId[];
  readonly kitTypes: readonly KitTypeId[];
}
const noOffer: Offer = { products: [], kitTypes: [] };

/** What a formulary has for a schedule. */
const offerOf = derived(
  (schedule: Schedule, formulary: Catalogue): Offer => ({
    products: schedule.action === 'give' ? productsFor(schedule, formulary) : [],
    kitTypes: schedule.action === 'test' ? kitsFor(schedule, formulary) : [],
  }),
);

const offerFor = (schedule: Schedule, formulary: Catalogue | null): Offer =>
  formulary === null ? noOffer : offerOf(schedule, formulary);

/** Kits in the order of the classes; of one class those that take the blood the protocol prefers come first. */
function kitsFor(schedule: Schedule, formulary: Catalogue): KitTypeId[] {
  const preferred = schedule.sample?.preferred ?? [];
  const takesIt = (kit: Catalogue['kits'][number]): boolean => kit.samples.some((sample) => preferred.includes(sample));
  const kits = [...formulary.kits.filter(takesIt), ...formulary.kits.filter((kit) => !takesIt(kit))];
  const ids = schedule.satisfiedBy.flatMap((wanted) =>
    kits.filter((kit) => kit.tests.includes(wanted)).map((kit) => kit.id),
  );
  return [...new Set(ids)];
}
