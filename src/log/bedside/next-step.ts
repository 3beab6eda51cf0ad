import { awaitingSecond } from '../../core/bedside/weighing.js';
import type { CalendarDate } from '../../core/calendar.js';
import { asksForWeight } from '../../core/dosing/amount.js';
import type { Product } from '../../core/dosing/formulary.js';
import { byRoute } from '../../core/dosing/ordered.js';
import type { DueItem } from '../../core/protocol/due.js';
import { productFor, weighedFirst } from '../prepare/item-needs.js';
import { chipCourse, openDifference } from '../views/chips/chip-course.js';
import { chipTrust, type TwoChips } from '../views/chips/chip-trust.js';
import { weightUsable } from '../views/doses/weight-for-dose.js';
import { dueAt } from '../views/due/due-at.js';
import { scheduleNamed } from '../views/due/schedules.js';
import { isLeft } from '../views/round/is-left.js';
import type { AnimalStop, RoundLine } from '../views/round/round.js';
import { dueIn, type World } from '../views/world.js';
import { mayBeDone } from './line-now.js';
import { orderOfLine } from './order-of-line.js';

/** The one thing to do now on an animal. */
export type Step =
  /** `line` is null when nothing planned asks for it, but a dose by weight cannot be worked out without it. */
  | { readonly do: 'weigh'; readonly line: RoundLine | null; readonly again: boolean }
  /** The protocol says not now. */
  | { readonly do: 'wait'; readonly line: RoundLine; readonly item: DueItem }
  | { readonly do: 'draw'; readonly line: RoundLine }
  | { readonly do: 'start'; readonly line: RoundLine }
  | { readonly do: 'chip'; readonly line: RoundLine }
  | { readonly do: 'give'; readonly line: RoundLine }
  | { readonly do: 'look'; readonly line: RoundLine }
  | { readonly do: 'finished' }
  /** The animal showed two chip numbers, and nobody has said that the work may go on. */
  | { readonly do: 'two-numbers'; readonly chips: TwoChips };

/** Stands in `goneOn` for a second weighing that could not be had. */
export const withoutSecond = 'second-weighing';

/**
 * What to do now: weighing before any dose that needs it, then the lines in the order of one visit (blood first, on the
 * skin last). A running test is not waited for. `goneOn`: schedules that a person decided to do although the protocol
 * says to wait.
 */
export function nextStep(
  world: World,
  stop: AnimalStop,
  now: string,
  today: CalendarDate,
  goneOn: ReadonlySet<string> = new Set(),
): Step {
  const { animal } = stop;
  const open = stop.lines.filter((line) => isLeft(line));
  const chips = chipTrust(animal, world.shelter.answers);
  // While the difference itself is open on this round it has a screen of its own, with its answers.
  if (chips?.stops === true && open.length > 0 && openDifference(animal, stop.own) === null) {
    return { do: 'two-numbers', chips };
  }
  if (awaitingSecond(animal, now) !== null && !goneOn.has(withoutSecond)) {
    return { do: 'weigh', line: open.find((line) => line.action === 'weigh') ?? null, again: true };
  }
  const due = dueAt(world, animal, now);
  const itemOf = (line: RoundLine): DueItem | undefined => due.find((item) => item.schedule === line.schedule);
  const waits = (line: RoundLine): boolean => mustWait(world, stop, line, itemOf(line), now, goneOn);
  const weighing = open.find((line) => line.action === 'weigh');
  if (weighing !== undefined) return { do: 'weigh', line: weighing, again: false };
  if (needsWeighing(world, stop, now, today, goneOn)) return { do: 'weigh', line: null, again: false };
  const line = open[0];
  if (line === undefined) return { do: 'finished' };
  const item = itemOf(line);
  if (item !== undefined && waits(line)) return { do: 'wait', line, item };
  switch (line.action) {
    case 'test':
      return { do: line.run?.drawnAt != null ? 'start' : 'draw', line };
    case 'chip':
      return { do: 'chip', line };
    case 'look':
      return { do: 'look', line };
    default:
      return { do: 'give', line };
  }
}

/** Products that satisfy a line, preferred first; from the protocol's classes when the due list no longer has it. */
export function productsOf(world: World, line: RoundLine, item: DueItem | undefined): Product[] {
  const all = world.shelter.formulary?.products ?? [];
  const named = item?.products.flatMap((id) => all.find((product) => product.id === id) ?? []) ?? [];
  if (named.length > 0) return named.map((product) => byRoute(product, item?.route ?? null));
  const classes: readonly string[] = scheduleNamed(world.shelter, line.schedule)?.satisfiedBy ?? [];
  return classes.flatMap((wanted) => all.filter((product) => product.classes.includes(wanted)));
}

export function productOf(world: World, line: RoundLine, item: DueItem | undefined): Product | null {
  const stocked = item === undefined ? null : productFor(world, item);
  return stocked ?? productsOf(world, line, item)[0] ?? null;
}

/** The protocol says not now, and nobody has decided to go on all the same. */
function mustWait(
  world: World,
  { animal, own }: AnimalStop,
  line: RoundLine,
  item: DueItem | undefined,
  now: string,
  goneOn: ReadonlySet<string>,
): boolean {
  if (item === undefined || line.state !== 'open' || goneOn.has(line.schedule)) return false;
  // A chip that was read in it is a stop of its own, and nothing that one goes on from.
  if (line.action === 'chip' && chipCourse(own, animal.scans).is === 'found') return false;
  // Of an order only one time may be done now, however many are open.
  const ordered = orderOfLine(animal, world.shelter, line.schedule, now);
  return !mayBeDone(item) || (ordered !== null && ordered.stand.mayDo === null);
}

/**
 * Whether an animal of the round stands among those to weigh first: by the same answer as on the pages before the round,
 * for what is still open of it.
 */
export function isWeighedFirst(world: World, stop: AnimalStop, now: string, today: CalendarDate): boolean {
  const open = stop.lines.filter(isLeft);
  const weighing = open.some((line) => line.action === 'weigh');
  const items = dueIn(world, stop.animal, today).filter((item) =>
    item.status === 'on-hold' ? weighing : open.some((line) => line.schedule === item.schedule),
  );
  return weighedFirst(world, stop.animal, items, now, today);
}

/** Whether something open goes by weight and the weight on record may not be used for it: the animal is weighed first. */
export function needsWeighing(
  world: World,
  stop: AnimalStop,
  now: string,
  today: CalendarDate,
  goneOn: ReadonlySet<string> = new Set(),
): boolean {
  const { animal } = stop;
  if (weightUsable(world.shelter, animal, now, today)) return false;
  const due = dueIn(world, animal, today);
  return stop.lines.filter(isLeft).some((line) => {
    const item = due.find(({ schedule }) => schedule === line.schedule);
    if (line.action !== 'give' || mustWait(world, stop, line, item, now, goneOn)) return false;
    const product = productOf(world, line, item);
    if (product === null) return false;
    return asksForWeight(product) || (product.labelMinWeight !== null && animal.weighings.length === 0);
  });
}
