import { type CalendarDate, type DayNumber, dayFromNumber } from '../calendar.js';
import type { KitTypeId, ProductId, SourceId } from '../ids.js';
import type { Said } from '../said.js';
import { type Dates, datesOf } from './dates.js';
import type { ProtocolDocument, Schedule, Target } from './document.js';
import type { DueItem, DueStatus, Hold, TraceStep } from './due.js';
import { endedSaid, keptUpSaid, notHereSaid, notNeededSaid, openSaid, waitsToBeSeenSaid } from './explain.js';
import { standstillOn } from './holds.js';
import type { Catalogue, ProtocolInput, Subject } from './input.js';
import { forecastOrders } from './order-forecast.js';
import type { Progress } from './progress.js';
import { subjectOf } from './subject.js';
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
  const forecastFor = (animal: ProtocolInput['animal']): DueItem[] => {
    const subject = subjectOf({ ...input, animal }, protocol, today);
    return protocol.schedules.filter(({ active }) => active).map((schedule) => forecastOne(subject, schedule));
  };
  const orders = forecastOrders(input, protocol, today);
  const items = forecastFor(input.animal);
  const { born } = input.animal;
  if (born.basis !== 'unknown') return orders.length === 0 ? items : [...items, ...orders];
  const asOldest = forecastFor({ ...input.animal, born: { ...born, latest: born.earliest } });
  const asYoungest = forecastFor({ ...input.animal, born: { ...born, earliest: born.latest } });
  const known = items.map((item, at) =>
    whenAgeIsUnknown(item, asOldest[at] ?? item, asYoungest[at] ?? item, protocol.ageUnknown),
  );
  return [...known, ...orders];
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
  const progress = subject.progressOf(schedule);
  const next = nextOf(subject, schedule, progress);
  const { dates } = next;
  const trace = dates === null ? [] : traceOf(dates);
  return {
    animal: subject.input.animal.id,
    schedule: schedule.id,
    scheduleName: schedule.name,
    action: schedule.action,
    dose: next.dose,
    status: next.status,
    earliest: asDate(dates?.earliest ?? next.notBefore),
    due: asDate(dates?.due ?? null),
    overdueAfter: asDate(dates?.overdueAfter ?? null),
    latest: asDate(dates?.latest ?? null),
    hold: next.hold,
    asks: next.asks,
    ...(next.times === undefined ? {} : { times: next.times }),
    products: schedule.action === 'give' ? productsFor(schedule, subject.input.formulary) : [],
    kitTypes: schedule.action === 'test' ? kitsFor(schedule, subject.input.formulary) : [],
    because: next.because,
    sources: sourcesOf(trace),
    protocol: { id: subject.protocol.id, version: subject.protocol.version },
    trace,
  };
}

const asDate = (number: DayNumber | null): CalendarDate | null => (number === null ? null : dayFromNumber(number));

/** Sources of the steps, first the deciding one's, each once. */
function sourcesOf(trace: readonly TraceStep[]): SourceId[] {
  const sources: SourceId[] = [];
  for (const bound of [true, false]) {
    for (const step of trace) {
      if (step.bound === bound && step.source !== null && !sources.includes(step.source)) sources.push(step.source);
    }
  }
  return sources;
}

function nextOf(subject: Subject, schedule: Schedule, progress: Progress): Next {
  const { series } = progress;
  const none = { dates: null, notBefore: null, hold: null, asks: [], times: undefined };
  if (!isHere(subject, schedule))
    return { ...none, status: 'not-recommended', dose: 1, because: notHereSaid(schedule) };
  if (series === null) return { ...none, status: 'not-recommended', dose: 1, because: notNeededSaid(schedule) };
  if (hasChipAlready(subject, schedule)) {
    return { ...none, status: 'complete', dose: 1, because: endedSaid(subject, schedule, progress) };
  }

  // Each turn either answers or passes over a target, so the way through the series ends.
  const { lastResult } = progress;
  const way = { of: schedule.id, place: progress.place, doses: [...progress.doses], lastResult };
  for (let target = series.targets[way.place]; target !== undefined; target = series.targets[way.place]) {
    const dose = way.doses.length + 1;
    const open = { doses: way.doses, last: progress.last };
    const dates = datesOf(subject, schedule, target, open);
    const place = way.place;
    settle(subject, series, way, Math.max(subject.today, dates.due));
    if (way.place !== place) continue;

    if (!isCalledFor(subject, target, progress)) {
      const because =
        schedule.action === 'test' && way.doses.length > 0
          ? endedSaid(subject, schedule, progress)
          : waitsToBeSeenSaid(schedule, progress, dayFromNumber(dates.earliest));
      const status = way.doses.length > 0 ? 'complete' : 'not-recommended';
      return { ...none, status, dose, notBefore: dates.earliest, because };
    }
    if (dates.latest !== null && Math.max(subject.today, dates.earliest) > dates.latest) {
      return { ...none, status: 'aged-out', dose, because: endedSaid(subject, schedule, progress, dates.latest) };
    }
    const { hold, asks } = standstillOn(subject, schedule, Math.max(subject.today, dates.due));
    const because = openSaid(subject, { schedule, series, progress, target, dose, dates });
    const times = timesOf(subject, target, way.doses, dates);
    if (target.upkeep && subject.today < dates.due) {
      const kept = keptUpSaid(endedSaid(subject, schedule, progress), because);
      return { ...none, status: 'complete', dose, dates, because: kept, times };
    }
    return { status: statusOf(subject.today, dates, hold), dose, dates, notBefore: null, because, hold, asks, times };
  }
  return { ...none, status: 'complete', dose: way.doses.length + 1, because: endedSaid(subject, schedule, progress) };
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
function timesOf(subject: Subject, target: Target, doses: readonly DayNumber[], dates: Dates): DueItem['times'] {
  if (target.times.length === 0) return undefined;
  const day = Math.max(subject.today, dates.due);
  const done = doses.filter((one) => one === day).length;
  const on = dayFromNumber(day);
  return target.times.map((at, index) => ({ on, at, state: index < done ? 'done' : 'open', why: null }));
}

function statusOf(today: DayNumber, dates: Dates, hold: Hold | null): DueStatus {
  if (hold !== null) return 'on-hold';
  if (today < dates.due) return 'not-yet';
  return dates.overdueAfter !== null && today > dates.overdueAfter ? 'overdue' : 'due';
}

/** Products in the order of the classes a schedule prefers, then in the order of the formulary. */
function productsFor(schedule: Schedule, formulary: Catalogue | null): ProductId[] {
  const products = formulary?.products ?? [];
  const ids = schedule.satisfiedBy.flatMap((wanted) =>
    products.filter((product) => product.classes.includes(wanted)).map((product) => product.id),
  );
  return [...new Set(ids)];
}

/** Kits in the order of the classes; of one class those that take the blood the protocol prefers come first. */
function kitsFor(schedule: Schedule, formulary: Catalogue | null): KitTypeId[] {
  const preferred = schedule.sample?.preferred ?? [];
  const takesIt = (kit: Catalogue['kits'][number]): number =>
    kit.samples.some((sample) => preferred.includes(sample)) ? 0 : 1;
  const kits = [...(formulary?.kits ?? [])].sort((a, b) => takesIt(a) - takesIt(b));
  const ids = schedule.satisfiedBy.flatMap((wanted) =>
    kits.filter((kit) => kit.tests.includes(wanted)).map((kit) => kit.id),
  );
  return [...new Set(ids)];
}
