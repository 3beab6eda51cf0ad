import { ageRange } from '../animal/age-range.js';
import type { Animal } from '../animal/animal.js';
import { isLongBefore } from '../animal/long-before.js';
import { type CalendarDate, epochMs } from '../calendar.js';
import { growing } from '../derived.js';
import {
  beyondAge,
  beyondJump,
  plausibleWeight,
  type WeightCheck,
  type WhatIsKnown,
} from '../dosing/plausible-weight.js';
import type { RecordId } from '../ids.js';

/** Two weighings of a wriggling kitten that agree this closely confirm each other, percent; ours. */
const agree_percent = 5;
/** A doubtful weight is answered by a second weighing within this time; ours. */
const sameVisit_ms = 2 * 3_600_000;

/** A weighing further ahead of this clock than this was stamped by another one; ours, as LOG-R50. */
const ahead_ms = 2 * 60_000;

type Weighing = Animal['weighings'][number];
type Weighed = Pick<Animal, 'weighings'>;
export type SecondLook = WeightCheck & {
  readonly confirms: boolean;
  /**
   * The two agree, and prove nothing: no cat of that age weighs so (`age`: the medical team's own hand proves it), or it is
   * too far from the last weight (`jump`: another scale does, too).
   */
  readonly beyond?: NonNullable<Weighing['beyond']>;
};

/** What stands behind a weighing besides the scale it was made on. */
export type Proof = 'medical' | 'other-scale' | null;

/** The doubtful weighing that waits for its second one, or null. */
export function awaitingSecond(animal: Weighed, now: string): Animal['weighings'][number] | null {
  // One that lies ahead of this clock is not what was just weighed: it keeps no doubt from being settled.
  const last = animal.weighings.findLast((one) => one.doubtful || epochMs(one.at) - epochMs(now) <= ahead_ms);
  if (last === undefined || !last.doubtful || epochMs(now) - epochMs(last.at) > sameVisit_ms) return null;
  return last;
}

/** The last weighing that nobody doubted. */
export const lastBelieved = (animal: Weighed): Animal['weighings'][number] | null =>
  animal.weighings.findLast((weighing) => !weighing.doubtful) ?? null;

/**
 * Whether a weight fits what is known. A weight that does not fit but agrees with the doubtful one just taken is
 * believed: the animal has been weighed twice, and both weighings are kept. What two readings of one scale do not prove
 * (`beyond`) is believed with a `proof` only. `except` leaves one weighing out, the one that is being corrected.
 */
export function lookAtWeight(
  animal: Weighed & Pick<Animal, 'born'>,
  grams: number,
  now: string,
  today: CalendarDate,
  except: RecordId | null = null,
  proof: Proof = null,
): SecondLook {
  const seen =
    except === null ? animal : { ...animal, weighings: animal.weighings.filter((one) => one.record !== except) };
  const known = knownOf(seen, now, today);
  const first = awaitingSecond(seen, now);
  if (first !== null && Math.abs(grams - first.grams) * 100 <= first.grams * agree_percent) {
    const age = proof === 'medical' ? null : beyondAge(grams, known);
    if (age !== null) return { ...age, confirms: false, beyond: 'age' };
    const jump = proof === null ? beyondJump(grams, known) : null;
    return jump === null ? { doubtful: false, confirms: true } : { ...jump, confirms: false, beyond: 'jump' };
  }
  return { ...plausibleWeight(grams, known), confirms: false };
}

function knownOf(animal: Weighed & Pick<Animal, 'born'>, now: string, today: CalendarDate): WhatIsKnown {
  const last = lastBelieved(animal);
  const vouched = last?.vouched === true ? { vouched: true as const } : {};
  const daysAgo = last === null ? 0 : (epochMs(now) - epochMs(last.at)) / 86_400_000;
  return { last: last === null ? null : { grams: last.grams, daysAgo, ...vouched }, ageDays: ageRange(animal, today) };
}

/**
 * Weighings in order of happening, each judged against those before it and the age on its day, whatever the device that
 * wrote it down made of it: one that it doubted stays doubtful, and one that it could not doubt is doubted here.
 */
export const withDoubts = (weighings: Animal['weighings'], born: Animal['born']): Animal['weighings'] =>
  judgedOf(weighings, born).map(({ is }) => is);

/** A weighing, what it was judged beside, and what came of it. */
interface Judged {
  readonly one: Weighing;
  /** The doubtful one just before it. */
  readonly doubted: Weighing | null;
  readonly believed: Weighing | null;
  readonly is: Weighing;
}

/** One that stands beside the same two others as before is judged as it was. */
const judgedOf = growing<Weighing, [Animal['born']], readonly Judged[]>(
  (weighings, born) => judge(weighings, born, []),
  (before, _grew, weighings, born) => judge(weighings, born, before),
);

function judge(weighings: readonly Weighing[], born: Animal['born'], before: readonly Judged[]): readonly Judged[] {
  let next = 0;
  let last: Weighing | null = null;
  let believed: Weighing | null = null;
  return weighings.map((one): Judged => {
    const doubted: Weighing | null = last?.doubtful === true ? last : null;
    const known = before[next];
    if (known?.one === one) next += 1;
    const judged: Judged =
      known?.one === one && known.doubted === doubted && known.believed === believed
        ? known
        : { one, doubted, believed, is: judgedBeside(one, doubted, believed, born) };
    last = judged.is;
    if (!last.doubtful) believed = last;
    return judged;
  });
}

function judgedBeside(
  weighing: Weighing,
  doubted: Weighing | null,
  believed: Weighing | null,
  born: Animal['born'],
): Weighing {
  const { vouched, otherScale, ...one } = weighing;
  const proof = vouched === true ? 'medical' : otherScale === true ? 'other-scale' : null;
  // A day on which there was no such animal tells no gain and no dose.
  if (isLongBefore(one.on, born)) return { ...one, doubtful: true };
  const before = [believed, doubted].filter((other) => other !== null);
  const look = lookAtWeight({ weighings: before, born }, one.grams, one.at, one.on, null, proof);
  const beyond = look.beyond === undefined ? {} : { beyond: look.beyond };
  if (one.doubtful) return { ...one, ...beyond };
  if (look.doubtful) return { ...one, ...beyond, doubtful: true, unasked: true };
  return isBeyond(one, born) ? { ...one, vouched: true } : one;
}

/** Believed, and no cat of that age has it: then it was vouched for, or follows one that was. */
const isBeyond = ({ grams, on }: Animal['weighings'][number], born: Animal['born']): boolean =>
  beyondAge(grams, { last: null, ageDays: ageRange({ born }, on) }) !== null;
