import { derived } from '../../core/derived.js';
import { secondsUntil } from '../../core/point-of-care/kit.js';
import { type Duration, durationOf } from '../../core/route-plan/model/durations.js';
import { type LogRecord, writtenLater } from '../record.js';
import { effective } from '../views/effective.js';
import { roundOf } from '../views/round/round.js';
import type { World } from '../views/world.js';
import { kindOfGiving } from './operations.js';

/** Seconds that each kind of operation really took, as far as the records tell. */
export type Timed = ReadonlyMap<string, readonly number[]>;

/** A longer time between two records is a pause, not an operation; ours. */
const longest_s = 10 * 60;
/** From one animal to the next of the same section; longer means waiting for a test, or a break. */
const longestFetch_s = 4 * 60;

/** While these are done a holder may be on his way to the next animal: what is left of the way tells nothing of it. */
const treaterAlone: readonly string[] = ['test-started', 'test-read'];

/**
 * What people on rounds really took, kind by kind: the seconds between one record and the one before it on the same
 * device, when both are about the same animal (or, for making sure of the next animal, follow each other).
 */
export const timedIn = derived((world: World): Timed => {
  const rows = new Map<string, LogRecord[]>();
  for (const [subject, records] of world.bySubject) {
    if (!subject.startsWith('animal:')) continue;
    for (const record of effective(records)) {
      const round = roundOf(record);
      // Times on paper are whole minutes at best, and keyed in elsewhere: they measure nothing.
      if (round === null || record.corrects !== undefined || writtenLater(record)) continue;
      const key = `${round} ${record.device}`;
      const own = rows.get(key);
      if (own === undefined) rows.set(key, [record]);
      else own.push(record);
    }
  }
  const timed = new Map<string, number[]>();
  for (const own of rows.values()) {
    own.sort((a, b) =>
      a.happenedAt < b.happenedAt ? -1 : a.happenedAt > b.happenedAt ? 1 : a.deviceSeq - b.deviceSeq,
    );
    for (const [i, record] of own.entries()) {
      const before = own[i - 1];
      if (before === undefined) continue;
      const kind = kindBetween(world, before, record);
      const seconds = secondsUntil(before.happenedAt, record.happenedAt);
      if (kind === null || seconds <= 0 || seconds > (kind === 'fetch' ? longestFetch_s : longest_s)) continue;
      if (kind === 'fetch' && changedSection(world, before, record)) continue;
      const sofar = timed.get(kind);
      if (sofar === undefined) timed.set(kind, [seconds]);
      else sofar.push(seconds);
    }
  }
  return timed;
});

/** How long one kind takes here: the shelter's own median once there are enough, else the assumption. */
export const lengthOf = (timed: Timed, kind: string): Duration => durationOf(kind, timed.get(kind) ?? []);

function kindBetween(world: World, before: LogRecord, record: LogRecord): string | null {
  const same = before.subject === record.subject;
  if (record.kind === 'animal-identified') return same || treaterAlone.includes(before.kind) ? null : 'fetch';
  if (!same) return null;
  switch (record.kind) {
    case 'animal-weighed':
      return 'weigh';
    case 'sample-drawn':
      return 'draw';
    case 'test-started':
      return 'start-test';
    case 'chip-scanned':
      return record.body.occasion === 'after' ? 'chip' : null;
    case 'treatment-given':
      return kindOfGiving(world, record.body.product);
    case 'observation-noted':
      return 'look';
    default:
      return null;
  }
}

/** Whether people left or came into a section between two records. */
function changedSection(world: World, before: LogRecord, record: LogRecord): boolean {
  const round = [...world.shelter.rounds.values()].find((one) => one.id === roundOf(record));
  const between = (at: string | null): boolean => at !== null && at > before.happenedAt && at <= record.happenedAt;
  return round?.visits.some((visit) => between(visit.enteredAt) || between(visit.leftAt)) ?? false;
}
