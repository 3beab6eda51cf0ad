import { type CalendarDate, dayOfInstant } from '../../core/calendar.js';
import { growing, grown } from '../../core/derived.js';
import type { RecordId } from '../../core/ids.js';
import type { Envelope, LogRecord } from '../record.js';
import { sameHands } from '../who-may.js';
import { correctionsIn } from './parts.js';

/**
 * The records of one subject as they stand after corrections, in order of happening.
 *
 * A correction takes the place of what it corrects whatever the clocks of the two devices said, and keeps the first
 * record's id, so that references to it stay good. Of several corrections the last one counts (`inOrderOfSaying`). A
 * withdrawn record is left out. A correction of something unknown stands on its own, and so does one that may not take the
 * place of what it names: of another subject, or of a kind that other people may write.
 *
 * Remembered by the list itself: a list that was asked about is not added to any more.
 */
export const effective = growing<LogRecord, [], readonly LogRecord[]>(
  (records) => {
    const standing: LogRecord[] = [];
    for (const [root, ...corrections] of versionsOf(records)) {
      const last = corrections.at(-1);
      if (last === undefined) {
        if (root.kind !== 'record-withdrawn') standing.push(root);
      } else if (last.kind !== 'record-withdrawn') {
        standing.push({ ...last, ...timeOf(last, root), id: root.id });
      }
    }
    return standing.sort(byHappening);
  },
  (before, { more }, records) => {
    if (changesOthers(more, records)) return undefined;
    const standing = more.filter(({ kind }) => kind !== 'record-withdrawn');
    return grown(before, standing, putAmong(before, standing));
  },
);

/** Records in order of happening, with some more in their places. */
function putAmong(before: readonly LogRecord[], more: readonly LogRecord[]): readonly LogRecord[] {
  const all = [...before];
  for (const record of more) {
    let [low, high] = [0, all.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (byHappening(all[middle] as LogRecord, record) <= 0) low = middle + 1;
      else high = middle;
    }
    all.splice(low, 0, record);
  }
  return all;
}

/** Whether records that came in last take the place of others, or have others that take theirs. */
function changesOthers(more: readonly LogRecord[], records: readonly LogRecord[]): boolean {
  if (more.some(({ corrects }) => corrects !== undefined)) return true;
  const corrections = correctionsIn(records);
  return corrections.length > 0 && corrections.some(({ corrects }) => more.some(({ id }) => id === corrects));
}

/** Each first record with all that may take its place, in the order in which they were said. */
function versionsOf(records: readonly LogRecord[]): (readonly [LogRecord, ...LogRecord[]])[] {
  const byId = new Map<RecordId, LogRecord>(records.map((record) => [record.id, record]));
  const find = (id: RecordId): LogRecord | undefined => byId.get(id);
  const corrections = new Map<RecordId, LogRecord[]>();
  const roots: LogRecord[] = [];
  for (const record of records) {
    const root = rootOf(record, find);
    if (root === record) roots.push(record);
    else corrections.set(root.id, [...(corrections.get(root.id) ?? []), record]);
  }
  return roots.map((root) => [root, ...inOrderOfSaying(corrections.get(root.id) ?? [])]);
}

/** Of every record that does not stand any more as it was written, the one that was said next in its place. */
export const replacedIn = growing<LogRecord, [], ReadonlyMap<RecordId, LogRecord>>(
  (records) =>
    new Map(
      versionsOf(records).flatMap((all) =>
        all.flatMap(({ id }, at): [RecordId, LogRecord][] => {
          const next = all[at + 1];
          return next === undefined ? [] : [[id, next]];
        }),
      ),
    ),
  (before, { more }, records) => (changesOthers(more, records) ? undefined : before),
);

/** A correction that leaves the time as it was written leaves it as it was settled, too, whenever it came in itself. */
const timeOf = (last: LogRecord, { happenedAt, said }: LogRecord): Partial<Pick<LogRecord, 'happenedAt' | 'said'>> =>
  said !== undefined && (said.happenedAt === (last.said ?? last).happenedAt || happenedAt === last.happenedAt)
    ? { happenedAt, said }
    : {};

export function byHappening(a: LogRecord, b: LogRecord): number {
  if (a.happenedAt !== b.happenedAt) return a.happenedAt < b.happenedAt ? -1 : 1;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** Only what `rootOf` looks at. */
export type Correcting = Pick<Envelope, 'id' | 'subject' | 'kind' | 'corrects' | 'by' | 'writtenBy' | 'body'>;

/**
 * A correction is about the same subject, and is a withdrawal or of a kind that the same people may write; an order is put
 * otherwise by its veterinarian alone.
 */
export const mayReplace = (correction: Correcting, root: Correcting): boolean =>
  correction.subject === root.subject &&
  (correction.kind === 'record-withdrawn' || sameHands(correction.kind, root.kind)) &&
  mayReplaceOrder(correction, root);

/**
 * What a veterinarian ordered is put otherwise only by that veterinarian's own hand; whoever wrote it down for them may
 * take their own writing back. Everybody else who may ends the order, which stays to be seen.
 */
export function mayReplaceOrder(correction: Correcting, root: Correcting): boolean {
  if (root.kind !== 'order-written') return true;
  const hand = correction.writtenBy ?? correction.by;
  if (correction.by === vetOf(root) && hand === correction.by) return true;
  return correction.kind === 'record-withdrawn' && correction.by === hand && hand === (root.writtenBy ?? root.by);
}

/** In whose name an order stands; of one that cannot be read, whoever recorded it. */
function vetOf({ body, by }: Correcting): string {
  const order = (body as { readonly order?: { readonly vet?: unknown } } | null)?.order;
  return typeof order?.vet === 'string' ? order.vet : by;
}

/** A correction of a veterinarian's order that came in although it may not take the order's place: it stands beside it. */
export function isBesideOrder(record: LogRecord, find: (id: RecordId) => LogRecord | undefined): boolean {
  if (record.corrects === undefined || rootOf(record, find) !== record) return false;
  return pathOf(record, find).some((one) => one !== record && one.kind === 'order-written');
}

/**
 * Follows `corrects` to the first record whose place this one may take. In a loop, which only a broken device makes, the
 * smallest id is the first.
 */
export function rootOf<R extends Correcting>(record: R, find: (id: RecordId) => R | undefined): R {
  if (record.corrects === undefined) return record;
  const [first = record, ...later] = pathOf(record, find).toReversed();
  return later.reduce((root, one) => (mayReplace(one, root) ? root : one), first);
}

/** From a record over what it corrects to the first, which is the last here. */
export function pathOf<R extends Correcting>(record: R, find: (id: RecordId) => R | undefined): R[] {
  const path = [record];
  const walked = new Set<RecordId>([record.id]);
  for (;;) {
    const at = path.at(-1);
    const before = at?.corrects === undefined ? undefined : find(at.corrects);
    if (before === undefined) return path;
    if (walked.has(before.id)) {
      const loop = path.slice(path.findIndex((one) => one.id === before.id));
      const least = loop.reduce((one, other) => (other.id < one.id ? other : one));
      return path.slice(0, path.indexOf(least) + 1);
    }
    walked.add(before.id);
    path.push(before);
  }
}

/**
 * All corrections of one record in the order in which they were said; the last one counts. One that corrects another is
 * later than it, whichever came in first: whoever wrote it had the other before them. Between rivals their position in the
 * log decides once both are there (one that is not there yet is later), else when they were written down.
 */
export function inOrderOfSaying(corrections: readonly LogRecord[]): LogRecord[] {
  if (corrections.length < 2) return [...corrections];
  const waiting = [...corrections].sort((a, b) => (isLater(a, b) ? 1 : -1));
  const open = new Set(waiting.map(({ id }) => id));
  const order: LogRecord[] = [];
  while (waiting.length > 0) {
    const free = waiting.findIndex(
      ({ id, corrects }) => corrects === undefined || corrects === id || !open.has(corrects),
    );
    const [next] = waiting.splice(Math.max(free, 0), 1);
    if (next === undefined) break;
    open.delete(next.id);
    order.push(next);
  }
  return order;
}

/** Of two records of which neither corrects the other, whether the first one was said later. */
export function isLater(a: LogRecord, b: LogRecord): boolean {
  const seqA = a.seq ?? Number.POSITIVE_INFINITY;
  const seqB = b.seq ?? Number.POSITIVE_INFINITY;
  if (seqA !== seqB) return seqA > seqB;
  if (a.recordedAt !== b.recordedAt) return a.recordedAt > b.recordedAt;
  return a.id > b.id;
}

/** Standing records in the order in which each was first said, whatever has corrected it since. */
export function bySaying(records: readonly LogRecord[]): (a: LogRecord, b: LogRecord) => number {
  const firsts = new Map(records.map((record) => [record.id, record]));
  return (a, b) => (a.id === b.id ? 0 : isLater(firsts.get(a.id) ?? a, firsts.get(b.id) ?? b) ? 1 : -1);
}

/** Whether records were all made by one person and written down by one, with nobody else among them. */
export const byOneHand = ([first, ...rest]: readonly LogRecord[]): boolean =>
  first !== undefined &&
  rest.every((one) => one.by === first.by && (one.writtenBy ?? one.by) === (first.writtenBy ?? first.by));

/** The day on which a record was written down, where it was. */
export const writtenOn = ({ recordedAt, zone }: LogRecord): CalendarDate => dayOfInstant(recordedAt, zone);

/** What one person wrote and put right on the same day: a slip of the pen, of which nobody has to be told. */
export const isSlipOfTheDay = (said: LogRecord, putRight: LogRecord): boolean =>
  byOneHand([said, putRight]) && writtenOn(said) === writtenOn(putRight);
