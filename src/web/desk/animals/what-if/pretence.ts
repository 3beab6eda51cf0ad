import type { Animal } from '../../../../core/animal/animal.js';
import type { CalendarDate } from '../../../../core/calendar.js';
import type { ProductId, ScheduleId } from '../../../../core/ids.js';
import type { DueItem } from '../../../../core/protocol/due.js';
import { hadBeenGiven, hadBeenSeen, hadWeighed } from '../time-line/pretend.js';

/** What is pretended of one animal; null where nothing is. */
export interface Pretence {
  /** The day that is looked at, and on which the weight and the observation would be made. */
  readonly day: CalendarDate;
  readonly grams: number | null;
  readonly dose: { readonly schedule: ScheduleId; readonly product: ProductId; readonly on: CalendarDate } | null;
  readonly seen: { readonly code: string; readonly state: 'present' | 'absent' } | null;
}

export const pretends = (one: Pretence, today: CalendarDate): boolean =>
  one.day !== today || one.grams !== null || one.dose !== null || one.seen !== null;

/** The animal as it would be. Only a value: no record is made. */
export function pretendedAnimal(animal: Animal, { day, grams, dose, seen }: Pretence): Animal {
  const weighed = grams === null ? animal : hadWeighed(animal, grams, day);
  const given = dose === null ? weighed : hadBeenGiven(weighed, dose.schedule, dose.product, dose.on);
  return seen === null ? given : hadBeenSeen(given, seen.code, seen.state, day);
}

export type Change = 'newly-due' | 'no-longer-due' | 'moved' | 'otherwise' | 'same';

/** One schedule as it is, and as it would be; null on the side that has none of it. */
export interface Compared {
  readonly schedule: ScheduleId;
  readonly now: DueItem | null;
  readonly would: DueItem | null;
  readonly change: Change;
}

/** Each schedule before and after, in the order of the first list; what only the second has comes last. */
export function compareDue(now: readonly DueItem[], then: readonly DueItem[]): Compared[] {
  const before = new Map(now.map((item) => [item.schedule, item]));
  const after = new Map(then.map((item) => [item.schedule, item]));
  return [...new Set([...before.keys(), ...after.keys()])].map((schedule) => {
    const [is, would] = [before.get(schedule) ?? null, after.get(schedule) ?? null];
    return { schedule, now: is, would, change: changeOf(is, would) };
  });
}

const isDue = (item: DueItem | null): boolean => item?.status === 'due' || item?.status === 'overdue';

function changeOf(is: DueItem | null, would: DueItem | null): Change {
  if (!isDue(is) && isDue(would)) return 'newly-due';
  if (isDue(is) && !isDue(would)) return 'no-longer-due';
  if ((is?.due ?? null) !== (would?.due ?? null)) return 'moved';
  const same =
    is?.status === would?.status &&
    (is?.hold?.code ?? null) === (would?.hold?.code ?? null) &&
    (is?.dose ?? 0) === (would?.dose ?? 0);
  return same ? 'same' : 'otherwise';
}
