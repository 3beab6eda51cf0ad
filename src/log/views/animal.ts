import {
  type Animal,
  byDay,
  type HistoryEvent,
  type Observation,
  type PlacedHold,
  type Weighing,
} from '../../core/animal/animal.js';
import { isOrderSchedule, type PlacedOrder } from '../../core/animal/vet-order.js';
import { withDoubts } from '../../core/bedside/weighing.js';
import { type CalendarDate, dayOfInstant, maximum } from '../../core/calendar.js';
import { derived, eachOf, growing, grown } from '../../core/derived.js';
import type { AnimalId, LotId, RecordId } from '../../core/ids.js';
import { dayAndTimeOf } from '../../core/wall-time.js';
import type { BodyOf } from '../kinds/index.js';
import type { LogRecord } from '../record.js';
import { foldFollowUps } from './blood-tests/followed-up.js';
import { foldRuns } from './blood-tests/test-runs.js';
import { foldChip, scanOf } from './chips/chip-fold.js';
import { isMedical } from './documents/ground-on.js';
import { effective, isBesideOrder } from './effective.js';
import type { Ground } from './ground.js';
import { endsOwn, guardAfter, type Noted } from './guards.js';
import { ofKinds, withCorrections } from './parts.js';

/** Day on which a record happened, in the zone it happened in; worked out once, for a record never changes. */
export const dayOf = derived((record: LogRecord): CalendarDate => dayOfInstant(record.happenedAt, record.zone));

/**
 * Fold the records of one animal, in any order, with the ground they belong to (lots, kits, zone).
 * Returns null when nobody has taken the animal in yet: its records are kept and flagged, not dropped.
 *
 * Each part of it is worked out from the records of its kinds, and stays the same object while none of them comes in.
 */
export function foldAnimal(id: AnimalId, records: readonly LogRecord[], ground: Ground): Animal | null {
  const standing = effective(records);
  const home = homeOf(stays(standing));
  if (home === null) return null;
  const { section, left, described } = home;
  const tests = runsOf(testing(standing), testingAsWritten(records), ground);
  const followUps = followUpsOf(words(standing), wordsAsWritten(records), tests.runs, ground);
  const carried = carriedOf(chips(standing));
  const weighed = weighings(standing);
  const treated = treatedOf(treatments(standing), ground);
  return {
    id,
    ...described,
    section: left === null ? section : null,
    kennel: home.kennel,
    left,
    sign: home.sign,
    chip: carried.chip,
    scans: carried.scans,
    weighings: judgedWeighings(weighed, ground.people, described.born),
    history: historyOf(weighedEvents(weighed), treated, tests.events, carried.events),
    runs: tests.runs,
    followUps,
    observations: observationsOf(noted(standing), ground),
    holds: holdsOf(holding(standing)),
    orders: ordersOf(ordering(standing), orderingAsWritten(records)),
  };
}

const stays = ofKinds('animal-taken-in', 'animal-described', 'animal-moved', 'sign-set', 'animal-left');
const weighings = ofKinds('animal-weighed');
const noted = ofKinds('observation-noted');
const treatments = ofKinds('treatment-given', 'treatment-not-given');
const testKinds = ['sample-drawn', 'test-started', 'test-read', 'test-abandoned'] as const;
const testing = ofKinds(...testKinds);
const testingAsWritten = withCorrections(...testKinds);
const words = ofKinds('test-followed-up');
const wordsAsWritten = withCorrections('test-followed-up');
const chips = ofKinds('chip-scanned', 'chip-implanted', 'chip-discarded', 'animal-identified');
const holding = ofKinds('hold-placed', 'hold-lifted');
const ordering = ofKinds('order-written', 'order-ended', 'order-countersigned');
const orderingAsWritten = withCorrections('order-written');

/** Who it is, where it is or was, and the sign on its door; null for one that nobody has taken in. */
const homeOf = derived((records: ReturnType<typeof stays>) => {
  const takenIn = records.find((record) => record.kind === 'animal-taken-in');
  if (takenIn === undefined) return null;
  let { section, kennel } = takenIn.body;
  let left: Animal['left'] = null;
  let sign: Animal['sign'] = null;
  let described: Omit<BodyOf<'animal-taken-in'>, 'origin' | 'section' | 'kennel'> = takenIn.body;
  for (const record of records) {
    switch (record.kind) {
      case 'animal-described':
        described = { ...described, ...withoutUndefined(record.body) };
        break;
      case 'animal-moved':
        section = record.body.section;
        kennel = record.body.kennel;
        break;
      case 'sign-set': {
        const { hangs, section: there, kennel: door } = record.body;
        const at = record.happenedAt;
        sign = hangs ? { record: record.id, at, by: record.by, section: there, kennel: door } : null;
        break;
      }
      case 'animal-left':
        // Nobody knows that it will have left: one for a day to come takes it off no list (stayFlags).
        if (leavesAhead(record)) break;
        left = {
          on: record.body.on,
          how: record.body.how,
          ...(record.body.word === null ? {} : { word: record.body.word }),
        };
        break;
      default:
        break;
    }
  }
  return { described, section, kennel, left, sign };
});

/** The days on which it was born, as its description says after these records; null before it was taken in. */
export const bornBy = (records: readonly LogRecord[]): Animal['born'] | null =>
  homeOf(stays(effective(records)))?.described.born ?? null;

type Events = readonly HistoryEvent[];

const runsOf = derived((standing: ReturnType<typeof testing>, records: readonly LogRecord[], ground: Ground) => {
  const runs = foldRuns(standing, records, ground);
  const events = runs.flatMap((run): Events => {
    if (run.readRecord === null || run.readAt === null) return [];
    const { readRecord: record, readAt: at, schedule, result, fault } = run;
    const why = fault === undefined ? {} : { fault };
    return [{ what: 'tested', record, at, on: dayOfInstant(at, ground.zone), schedule, run: run.run, result, ...why }];
  });
  return { runs, events };
});

const followUpsOf = derived(foldFollowUps);

const carriedOf = derived((records: ReturnType<typeof chips>) => {
  const scans = records.flatMap((record) => (record.kind === 'chip-scanned' ? [scanOf(record, dayOf(record))] : []));
  const events: HistoryEvent[] = [];
  return { chip: foldChip(records, events), scans, events: events as Events };
});

type Weighed = ReturnType<typeof weighings>;

const weighing = ({ id, happenedAt, body }: Weighed[number], on: CalendarDate) => ({
  record: id,
  at: happenedAt,
  on,
  grams: body.grams,
});

const weighedEvents = eachOf<Weighed[number], [], HistoryEvent>((record) => ({
  what: 'weighed',
  ...weighing(record, dayOf(record)),
}));

const asWeighed = eachOf<Weighed[number], [Ground['people']], Weighing>((record, people) => {
  const { doubtful, otherScale } = record.body;
  const proof = {
    ...(isMedical({ people }, record) ? { vouched: true as const } : {}),
    ...(otherScale === true ? { otherScale: true as const } : {}),
  };
  return { ...weighing(record, dayOf(record)), doubtful, ...proof };
});

const judgedWeighings = derived((records: Weighed, people: Ground['people'], born: Animal['born']) =>
  withDoubts(asWeighed(records, people), born),
);

const treatedOf = eachOf<ReturnType<typeof treatments>[number], [Ground], HistoryEvent>((record, ground) => {
  const on = dayOf(record);
  const { id, happenedAt: at } = record;
  if (record.kind === 'treatment-given') {
    const { schedule, product, lot, outcome } = record.body;
    const substandard = outcome === 'not-taken' ? 'not-taken' : lotFault(ground, lot, on);
    const ordered = schedule !== null && isOrderSchedule(schedule) ? forOrder(record) : {};
    return { what: 'given', record: id, at, on, schedule, product, lot, substandard, ...ordered };
  }
  const { schedule, reason } = record.body;
  const ordered = isOrderSchedule(schedule) ? forOrder(record) : {};
  return { what: 'not-given', record: id, at, on, schedule, reason, ...ordered };
});

/** Everything that happened to it, in order. What is no weighing stays one list while only weighings come in. */
const historyOf = (weighed: Events, treated: Events, tested: Events, chipped: Events): Events =>
  withWeighings(weighed, doneOf(treated, tested, chipped));

const doneOf = derived(
  (treated: Events, tested: Events, chipped: Events): Events => [...treated, ...tested, ...chipped].sort(inOrder),
);

const withWeighings = derived(
  (weighed: Events, done: Events): Events => grown(done, weighed, [...weighed, ...done].sort(inOrder)),
);

const inOrder = (a: HistoryEvent, b: HistoryEvent): number =>
  a.at < b.at ? -1 : a.at > b.at ? 1 : a.record < b.record ? -1 : 1;

/** An observation as its record says it, and what the medical team saw of the same thing before it and after it. */
export interface Seen {
  readonly record: Noted;
  readonly before: Noted | undefined;
  readonly after: Noted | undefined;
  readonly is: Observation;
}

const observationsOf = derived((records: readonly Noted[], ground: Ground): Animal['observations'] =>
  byDay(observed(seenOf(records, ground))),
);

const observed = eachOf(({ is }: Seen): Observation => is);

/** One that comes after the same word of the medical team as before is read as it was. */
export const seenOf: (records: readonly Noted[], ground: Ground) => readonly Seen[] = growing<
  Noted,
  [Ground],
  readonly Seen[]
>(
  (records, ground) => see(records, ground, []),
  (before, _grew, records, ground) => see(records, ground, before),
);

function see(records: readonly Noted[], ground: Ground, before: readonly Seen[]): readonly Seen[] {
  const guards = new Map<string, Noted | undefined>();
  const more: Seen[] = [];
  let next = 0;
  const all = records.map((record): Seen => {
    const guard = guards.get(record.body.code);
    const known = before[next];
    if (known?.record === record) next += 1;
    const isAsBefore = known?.record === record && known.before === guard;
    const seen = isAsBefore ? known : seenAfter(record, guard, ground);
    if (!isAsBefore) more.push(seen);
    guards.set(record.body.code, seen.after);
    return seen;
  });
  return all.length === before.length + more.length ? grown(before, more, all) : all;
}

function seenAfter(record: Noted, guard: Noted | undefined, ground: Ground): Seen {
  const { code, state, until, note, answer } = record.body;
  const on = dayOf(record);
  const ordered = isOrderSchedule(code) ? { at: record.happenedAt, ...forOrder(record) } : {};
  const shown = answer === null ? {} : { answer };
  const entitled = isMedical(ground, record) || endsOwn(record, guard) ? { medical: true as const } : {};
  // What is noted for a day to come holds meanwhile; the end of something waits for its day.
  const from = state === 'present' && !isOrderSchedule(code) && record.body.on > on ? on : record.body.on;
  const is = { record: record.id, code, state, on: from, until: endOf(record.body.on, until), note };
  const after = guardAfter(ground, record, guard);
  return { record, before: guard, after, is: { ...is, ...entitled, ...shown, ...ordered } };
}

const holdsOf = derived((records: ReturnType<typeof holding>): readonly PlacedHold[] => {
  const placed = new Map<RecordId, PlacedHold>();
  for (const record of records) {
    if (record.kind === 'hold-lifted') placed.delete(record.body.hold);
    else {
      const { from, until, ...rest } = record.body;
      placed.set(record.id, { record: record.id, from, until: endOf(from, until), ...rest });
    }
  }
  return [...placed.values()];
});

const ordersOf = derived(
  (standing: ReturnType<typeof ordering>, records: readonly LogRecord[]): readonly PlacedOrder[] => {
    const find = (id: RecordId) => records.find((one) => one.id === id);
    const orders = new Map<RecordId, PlacedOrder>();
    for (const record of standing) {
      if (record.kind !== 'order-written') continue;
      orders.set(record.id, {
        record: record.id,
        terms: record.body.order,
        ended: null,
        ...writtenFor(record, isBesideOrder(record, find)),
      });
    }
    // An end may have happened, by the clocks of two devices, before the order that it ends.
    for (const record of standing) {
      if (record.kind !== 'order-ended') continue;
      const { body } = record;
      const order = orders.get(body.order);
      if (order === undefined) continue;
      const earlier = order.ended === null || body.on < order.ended.on;
      if (earlier) orders.set(body.order, { ...order, ended: { on: body.on, why: body.why } });
    }
    for (const record of standing) {
      if (record.kind !== 'order-countersigned') continue;
      const order = orders.get(record.body.order);
      if (order !== undefined) orders.set(record.body.order, answeredBy(order, record));
    }
    return [...orders.values()];
  },
);

/** That an order was not written by the own hand of the veterinarian in whose name it stands, or displaces another's. */
function writtenFor(record: LogRecord<'order-written'>, isBeside: boolean): Pick<PlacedOrder, 'written'> {
  const { by, writtenBy, body } = record;
  const { order, told } = body;
  const own = by === order.vet && (writtenBy ?? by) === by;
  if (own && !isBeside) return {};
  const { happenedAt, zone } = record;
  const heard =
    told === null || isBeside || by !== order.vet ? null : { readBack: told.readBack, at: happenedAt, zone };
  return { written: { by: order.vet, writer: writtenBy ?? by, told: heard, answered: null } };
}

/** Only the veterinarian in whose name it stands answers for it, by their own hand. One who says no ends it that day. */
function answeredBy(order: PlacedOrder, record: LogRecord<'order-countersigned'>): PlacedOrder {
  const { written, ended } = order;
  if (written === undefined || record.by !== written.by || record.writtenBy !== undefined) return order;
  const { says, note } = record.body;
  const answered = { at: record.happenedAt, says };
  const on = dayOf(record);
  const ends = says === 'not-mine' && (ended === null || on < ended.on) ? { on, why: note } : ended;
  return { ...order, ended: ends, written: { ...written, answered } };
}

/** What of an order a record confirms, and the wall-clock time at which it happened. */
function forOrder(record: LogRecord<'treatment-given' | 'treatment-not-given' | 'observation-noted'>) {
  return { dueAt: record.body.dueAt, wall: dayAndTimeOf(record.happenedAt, record.zone).time };
}

/** Why a dose from this lot does not count: used after its expiry day, or withdrawn for a fault of its own. */
function lotFault(ground: Ground, id: LotId | null, on: CalendarDate): 'expired-lot' | 'withdrawn-lot' | null {
  const lot = id === null ? undefined : ground.lots.get(id);
  if (lot === undefined) return null;
  const why = lot.withdrawn?.why;
  if (why === 'recalled' || why === 'stored-wrong') return 'withdrawn-lot';
  return lot.expires !== null && on > lot.expires ? 'expired-lot' : null;
}

/** Whether a leaving was written down before the day that it names. */
export function leavesAhead(record: LogRecord<'animal-left'>): boolean {
  const written = dayOfInstant(record.recordedAt, record.zone);
  return record.body.on > maximum(written, dayOf(record));
}

/** An end before the beginning is a slip, and would hold nothing: it holds until somebody has put it right. */
const endOf = (from: CalendarDate, until: CalendarDate | null): CalendarDate | null =>
  until !== null && until < from ? null : until;

type Defined<T> = { [K in keyof T]: Exclude<T[K], undefined> };
function withoutUndefined<T extends object>(value: T): Partial<Defined<T>> {
  return Object.fromEntries(Object.entries(value).filter(([, field]) => field !== undefined)) as Partial<Defined<T>>;
}
