import type { Animal, ChipScan, HistoryEvent, Observation, PlacedHold, Weighing } from '../../core/animal/animal.js';
import { isOrderSchedule, type PlacedOrder } from '../../core/animal/vet-order.js';
import { withDoubts } from '../../core/bedside/weighing.js';
import { type CalendarDate, dayOfInstant, maximum } from '../../core/calendar.js';
import { derived } from '../../core/derived.js';
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

/** Day on which a record happened, in the zone it happened in; worked out once, for a record never changes. */
export const dayOf = derived((record: LogRecord): CalendarDate => dayOfInstant(record.happenedAt, record.zone));

/**
 * Fold the records of one animal, in any order, with the ground they belong to (lots, kits, zone).
 * Returns null when nobody has taken the animal in yet: its records are kept and flagged, not dropped.
 */
export function foldAnimal(id: AnimalId, records: readonly LogRecord[], ground: Ground): Animal | null {
  const standing = effective(records);
  const find = (id: RecordId) => records.find((one) => one.id === id);
  const takenIn = standing.find((record) => record.kind === 'animal-taken-in');
  if (takenIn === undefined) return null;

  const runs = foldRuns(standing, records, ground);
  const scans: ChipScan[] = [];
  const weighings: Weighing[] = [];
  const observations: Observation[] = [];
  const guards = new Map<string, Noted | undefined>();
  const followUps = foldFollowUps(standing, records, runs, ground);
  const placed = new Map<RecordId, PlacedHold>();
  const orders = new Map<RecordId, PlacedOrder>();
  const ends: LogRecord<'order-ended'>[] = [];
  const signs: LogRecord<'order-countersigned'>[] = [];
  const history: HistoryEvent[] = [];
  let { section, kennel } = takenIn.body;
  let left: Animal['left'] = null;
  let sign: Animal['sign'] = null;
  let described: Omit<BodyOf<'animal-taken-in'>, 'origin' | 'section' | 'kennel'> = takenIn.body;

  for (const record of standing) {
    const on = dayOf(record);
    const at = record.happenedAt;
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
      case 'animal-weighed': {
        const { grams, doubtful, otherScale } = record.body;
        const vouched = otherScale === true || isMedical(ground, record) ? { vouched: true as const } : {};
        weighings.push({ record: record.id, at, on, grams, doubtful, ...vouched });
        history.push({ what: 'weighed', record: record.id, at, on, grams });
        break;
      }
      case 'observation-noted': {
        const { code, state, until, note, answer } = record.body;
        const ordered = isOrderSchedule(code) ? { at, ...forOrder(record) } : {};
        const shown = answer === null ? {} : { answer };
        const guard = guards.get(code);
        const entitled = isMedical(ground, record) || endsOwn(record, guard) ? { medical: true as const } : {};
        guards.set(code, guardAfter(ground, record, guard));
        // What is noted for a day to come holds meanwhile; the end of something waits for its day.
        const from = state === 'present' && !isOrderSchedule(code) && record.body.on > on ? on : record.body.on;
        const seen = { record: record.id, code, state, on: from, until: endOf(record.body.on, until), note };
        observations.push({ ...seen, ...entitled, ...shown, ...ordered });
        break;
      }
      case 'hold-placed': {
        const { schedules, code, from, until, note } = record.body;
        placed.set(record.id, { record: record.id, schedules, code, from, until: endOf(from, until), note });
        break;
      }
      case 'hold-lifted':
        placed.delete(record.body.hold);
        break;
      case 'treatment-given': {
        const { schedule, product, lot, outcome } = record.body;
        const substandard = outcome === 'not-taken' ? 'not-taken' : lotFault(ground, lot, on);
        const ordered = schedule !== null && isOrderSchedule(schedule) ? forOrder(record) : {};
        history.push({ what: 'given', record: record.id, at, on, schedule, product, lot, substandard, ...ordered });
        break;
      }
      case 'treatment-not-given': {
        const { schedule, reason } = record.body;
        const ordered = isOrderSchedule(schedule) ? forOrder(record) : {};
        history.push({ what: 'not-given', record: record.id, at, on, schedule, reason, ...ordered });
        break;
      }
      case 'chip-scanned': {
        scans.push(scanOf(record, on));
        break;
      }
      case 'order-written':
        orders.set(record.id, {
          record: record.id,
          terms: record.body.order,
          ended: null,
          ...writtenFor(record, isBesideOrder(record, find)),
        });
        break;
      case 'order-ended':
        ends.push(record);
        break;
      case 'order-countersigned':
        signs.push(record);
        break;
      default:
        break;
    }
  }
  // An end may have happened, by the clocks of two devices, before the order that it ends.
  for (const { body } of ends) {
    const order = orders.get(body.order);
    if (order === undefined) continue;
    const earlier = order.ended === null || body.on < order.ended.on;
    if (earlier) orders.set(body.order, { ...order, ended: { on: body.on, why: body.why } });
  }

  for (const record of signs) {
    const order = orders.get(record.body.order);
    if (order !== undefined) orders.set(record.body.order, answeredBy(order, record));
  }

  for (const run of runs) {
    if (run.readRecord === null || run.readAt === null) continue;
    const { readRecord: record, readAt: at, schedule, result, fault } = run;
    const on = dayOfInstant(at, ground.zone);
    const why = fault === undefined ? {} : { fault };
    history.push({ what: 'tested', record, at, on, schedule, run: run.run, result, ...why });
  }
  const chip = foldChip(standing, history);

  return {
    id,
    ...described,
    section: left === null ? section : null,
    kennel,
    left,
    sign,
    chip,
    scans,
    weighings: withDoubts(weighings, described.born),
    history: history.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.record < b.record ? -1 : 1)),
    runs,
    followUps,
    observations,
    holds: [...placed.values()],
    orders: [...orders.values()],
  };
}

/** That an order was not written by the own hand of the veterinarian in whose name it stands, or displaces another's. */
function writtenFor(record: LogRecord<'order-written'>, isBeside: boolean): Pick<PlacedOrder, 'written'> {
  const { by, writtenBy, body } = record;
  const { order, told } = body;
  const own = by === order.vet && (writtenBy ?? by) === by;
  if (own && !isBeside) return {};
  const heard = told === null || isBeside || by !== order.vet ? null : { readBack: told.readBack };
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
