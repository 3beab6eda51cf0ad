import type { Animal } from '../../../../core/animal/animal.js';
import { type CalendarDate, type DayNumber, dayFromNumber, dayNumber } from '../../../../core/calendar.js';
import type { DueItem } from '../../../../core/protocol/due.js';
import type { Evaluated } from '../../../../core/protocol/evaluated.js';
import { dueOf, worthOf } from '../../../../log/views/due/due.js';
import type { Shelter } from '../../../../log/views/shelter.js';
import { hadBeenGiven } from './pretend.js';

/** One thing that was done, and what it was worth. */
export interface Mark {
  readonly day: DayNumber;
  readonly worth: Evaluated;
}

/** When a dose may be done: the next one by the protocol, or a later one if each before it is given on its day. */
export interface DueWindow {
  readonly item: DueItem;
  readonly due: DayNumber;
  readonly from: DayNumber;
  /** Last day on which it is in time; null when it never becomes late. */
  readonly to: DayNumber | null;
  /** 0 for the next one. */
  readonly ahead: number;
}

export interface HoldSpan {
  readonly from: DayNumber;
  /** Null for no known end. */
  readonly to: DayNumber | null;
  readonly item: DueItem;
}

/** One schedule of one animal, from the first dose to the last that can be foreseen. */
export interface Lane {
  readonly id: string;
  readonly item: DueItem;
  readonly marks: readonly Mark[];
  readonly windows: readonly DueWindow[];
  readonly hold: HoldSpan | null;
}

/** How far ahead later doses are looked for: two years, or eight of them. */
const foreseen = { days: 730, doses: 8 };

/** Lanes of all schedules that have something to show, in the order of the protocol, orders last. */
export function lanesOf(animal: Animal, shelter: Shelter, today: CalendarDate): Lane[] {
  const worth = worthOf(animal, shelter, today);
  return dueOf(animal, shelter, today).flatMap((item): Lane[] => {
    const marks = worth
      .filter((one) => one.schedule === item.schedule)
      .map((one) => ({ day: dayNumber(one.on), worth: one }))
      .sort((a, b) => a.day - b.day);
    const windows = windowsOf(animal, shelter, item, today);
    const hold = holdOf(animal, item, today);
    if (marks.length === 0 && windows.length === 0 && hold === null) return [];
    return [{ id: item.schedule, item, marks, windows, hold }];
  });
}

function windowOf(item: DueItem, ahead: number): DueWindow[] {
  if (item.due === null) return [];
  const due = dayNumber(item.due);
  const last = item.overdueAfter ?? item.latest;
  return [
    {
      item,
      due,
      from: item.earliest === null ? due : dayNumber(item.earliest),
      to: last === null ? null : dayNumber(last),
      ahead,
    },
  ];
}

/** The next window, and the later ones as they would come if each were given on its day; held ones are not guessed. */
function windowsOf(animal: Animal, shelter: Shelter, next: DueItem, today: CalendarDate): DueWindow[] {
  const windows = windowOf(next, 0);
  const end = dayNumber(today) + foreseen.days;
  let pretended = animal;
  let item = next;
  while (windows.length <= foreseen.doses) {
    const product = item.products[0];
    if (item.action !== 'give' || item.order !== undefined || item.due === null || product === undefined) break;
    if (item.hold !== null && item.hold.until === null) break;
    const on = dayFromNumber(Math.max(dayNumber(item.due), dayNumber(today)));
    pretended = hadBeenGiven(pretended, item.schedule, product, on);
    const after = dueOf(pretended, shelter, on).find((one) => one.schedule === item.schedule);
    if (after === undefined || after.due === null || after.due <= on || dayNumber(after.due) > end) break;
    item = after;
    windows.push(...windowOf(item, windows.length));
  }
  return windows;
}

/** From the day the hold was placed where a person placed it, else from today. */
function holdOf(animal: Animal, item: DueItem, today: CalendarDate): HoldSpan | null {
  if (item.hold === null) return null;
  const { code, until } = item.hold;
  const placed = animal.holds.find(
    (one) => one.code === code && (one.schedules === 'all' || one.schedules.includes(item.schedule)),
  );
  const seen = animal.observations.filter((one) => one.code === code && one.state === 'present').at(-1);
  const from = placed?.from ?? seen?.on ?? today;
  return { from: dayNumber(from), to: until === null ? null : dayNumber(until), item };
}
