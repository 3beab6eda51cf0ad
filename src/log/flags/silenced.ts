import { partBy } from '../../core/derived.js';
import type { Raised } from '../flag.js';
import type { LogRecord } from '../record.js';
import { byOneHand, inOrderOfSaying } from '../views/effective.js';

/** A flag that records once raised and no longer do, because one of them was taken back or put otherwise. */
export interface Silenced {
  readonly flag: Raised;
  /** The record by which it was raised no more. */
  readonly taker: LogRecord;
  /** Put right by whoever had said it, before anybody else recorded anything about the animal. */
  readonly ownSlip: boolean;
}

/**
 * The flags that corrections, withdrawals, the giving up of a test and another reading of it have silenced, whatever they are about: the records
 * of one animal are judged before and after each such record, in the order in which they were said. A flag is silenced
 * when the last such record before which it was raised ended it and it is not raised now; a stop that is now a mere
 * attention counts as ended. Pure; costs two judgements for each such record, nothing where there is none.
 */
export function silencedIn(
  records: readonly LogRecord[],
  judge: (some: readonly LogRecord[]) => readonly Raised[],
): Silenced[] {
  if (mayTake(records).length === 0) return [];
  const order = inOrderOfSaying(records);
  const takers = takersIn(order);
  if (takers.size === 0) return [];
  const thingOf = thingsIn(order);
  const known = new Map<number, readonly Raised[]>();
  const upTo = (count: number): readonly Raised[] => {
    const found = known.get(count) ?? judge(order.slice(0, count));
    known.set(count, found);
    return found;
  };
  const silenced = new Map<string, Silenced>();
  const raisedAgain = (flags: readonly Raised[]): void => {
    for (const [thing, { flag }] of silenced) if (stands(flag, flags, thingOf)) silenced.delete(thing);
  };
  for (const [place, taker] of order.entries()) {
    if (!takers.has(taker)) continue;
    const before = upTo(place);
    const after = upTo(place + 1);
    raisedAgain(before);
    for (const flag of before) {
      if (stands(flag, after, thingOf)) continue;
      silenced.set(thingOf(flag), { flag, taker, ownSlip: isOwnSlip(order, flag, taker, place) });
    }
  }
  raisedAgain(upTo(order.length));
  return [...silenced.values()];
}

/** Without one of these nothing can silence a flag. */
const mayTake = partBy<LogRecord, LogRecord>(
  (record): record is LogRecord => record.corrects !== undefined || isOfTest(record),
);

const isOfTest = ({ kind }: LogRecord): boolean =>
  kind === 'test-abandoned' || kind === 'test-read' || kind === 'test-started';

/**
 * What may silence a flag: corrections and withdrawals, a test given up, and a reading or a start of a test that had one
 * before.
 */
function takersIn(order: readonly LogRecord[]): ReadonlySet<LogRecord> {
  const had = new Set<string>();
  const takers = order.filter((record) => {
    if (record.corrects !== undefined || record.kind === 'test-abandoned') return true;
    if (record.kind !== 'test-read' && record.kind !== 'test-started') return false;
    const thing = `${record.kind} ${record.body.run}`;
    const again = had.has(thing);
    had.add(thing);
    return again;
  });
  return new Set(takers);
}

const stands = (flag: Raised, flags: readonly Raised[], thingOf: (flag: Raised) => string): boolean =>
  flags.some(
    (one) => thingOf(one) === thingOf(flag) && (isFinding(flag) || one.severity === 'stop' || flag.severity !== 'stop'),
  );

/**
 * Marks of one test, that it says nothing, and what the lamp showed on one occasion, are one thing under several codes,
 * whichever reading of the test stands.
 */
function thingsIn(order: readonly LogRecord[]): (flag: Raised) => string {
  const runs = new Map<string, string>(
    order.flatMap((record) => (record.kind === 'test-read' ? [[record.id, record.body.run]] : [])),
  );
  return (flag) => {
    const is = findingOf(flag) ?? (saysNothing(flag) ? 'nothing' : null);
    return is === null ? flag.key : `${is}:${runs.get(flag.about ?? '') ?? flag.about}`;
  };
}

const nothing: readonly string[] = ['test-invalid', 'test-not-valid', 'test-untimed'];

/** Whether a flag tells of a test that says nothing. */
export const saysNothing = ({ code }: Raised): boolean => nothing.includes(code);

const readings: readonly string[] = ['reactive', 'mark-not-counted'];
const glows: readonly string[] = ['lamp-glow', 'lamp-unsure'];

/** Whether a flag tells of a finding that keeps its animal apart, and of which. */
export const findingOf = ({ code }: Raised): 'reading' | 'glow' | null =>
  readings.includes(code) ? 'reading' : glows.includes(code) ? 'glow' : null;

const isFinding = (flag: Raised): boolean => findingOf(flag) !== null;

function isOwnSlip(order: readonly LogRecord[], flag: Raised, taker: LogRecord, place: number): boolean {
  const [about, corrected] = [flag.about, taker.corrects].map((id) => order.findIndex((one) => one.id === id));
  if (about === undefined || about < 0) return false;
  const from = corrected === undefined || corrected < 0 ? about : Math.min(about, corrected);
  return byOneHand(order.slice(from, place + 1));
}
