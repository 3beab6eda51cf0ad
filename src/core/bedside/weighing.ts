import { ageRange } from '../animal/age-range.js';
import type { Animal } from '../animal/animal.js';
import { isLongBefore } from '../animal/long-before.js';
import { type CalendarDate, epochMs } from '../calendar.js';
import { growing } from '../derived.js';
import { plausibleWeight, type WeightCheck } from '../dosing/plausible-weight.js';
import type { RecordId } from '../ids.js';

/** Two weighings of a wriggling kitten that agree this closely confirm each other, percent; ours. */
const agree_percent = 5;
/** A doubtful weight is answered by a second weighing within this time; ours. */
const sameVisit_ms = 2 * 3_600_000;

/** A weighing further ahead of this clock than this was stamped by another one; ours, as LOG-R50. */
const ahead_ms = 2 * 60_000;

type Weighed = Pick<Animal, 'weighings'>;
export type SecondLook = WeightCheck & { readonly confirms: boolean };

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
 * believed: the animal has been weighed twice, and both weighings are kept. `except` leaves one weighing out, the one
 * that is being corrected.
 */
export function lookAtWeight(
  animal: Weighed & Pick<Animal, 'born'>,
  grams: number,
  now: string,
  today: CalendarDate,
  except: RecordId | null = null,
): SecondLook {
  const seen =
    except === null ? animal : { ...animal, weighings: animal.weighings.filter((one) => one.record !== except) };
  const first = awaitingSecond(seen, now);
  if (first !== null && Math.abs(grams - first.grams) * 100 <= first.grams * agree_percent) {
    return { doubtful: false, confirms: true };
  }
  const last = lastBelieved(seen);
  const check = plausibleWeight(grams, {
    last: last === null ? null : { grams: last.grams, daysAgo: (epochMs(now) - epochMs(last.at)) / 86_400_000 },
    ageDays: ageRange(animal, today),
  });
  return { ...check, confirms: false };
}

/**
 * Weighings in order of happening, each judged against those before it and the age on its day, whatever the device that
 * wrote it down made of it: one that it doubted stays doubtful, and one that it could not doubt is doubted here.
 */
export const withDoubts = (weighings: Animal['weighings'], born: Animal['born']): Animal['weighings'] =>
  judgedOf(weighings, born).map(({ is }) => is);

type Weighing = Animal['weighings'][number];

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
  one: Weighing,
  doubted: Weighing | null,
  believed: Weighing | null,
  born: Animal['born'],
): Weighing {
  if (one.doubtful) return one;
  // A day on which there was no such animal tells no gain and no dose.
  if (isLongBefore(one.on, born)) return { ...one, doubtful: true };
  const before = [believed, doubted].filter((other) => other !== null);
  return lookAtWeight({ weighings: before, born }, one.grams, one.at, one.on).doubtful
    ? { ...one, doubtful: true, unasked: true }
    : one;
}
