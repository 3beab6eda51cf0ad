import type { CalendarDate } from '../../core/calendar.js';
import type { PersonId } from '../../core/ids.js';
import type { DueItem } from '../../core/protocol/due.js';
import type { Said } from '../../core/said.js';
import { givenAlready } from '../plan/given-already.js';
import type { LogRecord } from '../record.js';
import { chipCourse } from '../views/chips/chip-course.js';
import { itemAt } from '../views/due/due-at.js';
import type { AnimalStop, RoundLine } from '../views/round/round.js';
import type { RoundFacts } from '../views/round-facts.js';
import { dueIn, type World } from '../views/world.js';
import { orderOfLine } from './order-of-line.js';

/** How a line of a round stands for whoever comes to do it, on paper as on a screen. */
export type LineNow =
  /** `notBefore`: the last one of its order was given too short a time ago. */
  | { readonly is: 'to-do'; readonly notBefore: string | null }
  /** On hold, or not due: the protocol or the order says not now. */
  | { readonly is: 'wait'; readonly item: DueItem }
  /** `line` says how it ended. */
  | { readonly is: 'done' | 'not-done' | 'under-way'; readonly line: RoundLine; readonly on: Recorded | null }
  /** Given since the round was laid, though not on it. */
  | { readonly is: 'given-elsewhere'; readonly on: Recorded }
  /** A chip was read in the animal: none goes in, and the desk is told. */
  | { readonly is: 'chip-read'; readonly code: string }
  | { readonly is: 'gone'; readonly on: CalendarDate };

interface Recorded {
  readonly at: string;
  readonly by: PersonId;
}

/** Whether the protocol or the order lets an item be done. */
export const mayBeDone = ({ status }: Pick<DueItem, 'status'>): boolean => status === 'due' || status === 'overdue';

/** Why an item is not to be done now, in the words of its hold where it has one. */
export const whyWait = ({ hold, because }: Pick<DueItem, 'hold' | 'because'>): Said => hold?.why ?? because;

/** How a line stands at an instant; of a round that is still to come, by what is due on its day. */
export function lineNow(
  world: World,
  facts: Pick<RoundFacts, 'id' | 'plan' | 'plannedAt'>,
  { animal, own }: Pick<AnimalStop, 'animal' | 'own'>,
  line: RoundLine,
  now: string,
  today: CalendarDate,
): LineNow {
  if (line.state !== 'open') {
    const is = line.state === 'running' || line.state === 'part' ? 'under-way' : line.state;
    const record = own.find(({ id }) => id === line.record);
    return { is, line, on: record === undefined ? null : recorded(record) };
  }
  if (animal.left !== null && animal.left.on <= today) return { is: 'gone', on: animal.left.on };
  const given = givenAlready(world, animal.id, line.schedule, facts);
  const on = facts.plan.on > today ? facts.plan.on : today;
  const onItsDay = dueIn(world, animal, on).find(({ schedule }) => schedule === line.schedule);
  const item = onItsDay === undefined ? undefined : itemAt(onItsDay, animal, world.shelter, now);
  if (given !== null && (item === undefined || !mayBeDone(item))) {
    return { is: 'given-elsewhere', on: recorded(given) };
  }
  const mayBe = item === undefined || mayBeDone(item) || (line.asNeeded === true && item.status === 'when-needed');
  if (!mayBe) return { is: 'wait', item };
  const chip = line.action === 'chip' ? chipCourse(own, animal.scans) : null;
  if (chip?.is === 'found') return { is: 'chip-read', code: chip.code };
  const ordered = orderOfLine(animal, world.shelter, line.schedule, now);
  return { is: 'to-do', notBefore: ordered?.stand.notBefore ?? null };
}

const recorded = ({ happenedAt, by }: LogRecord): Recorded => ({ at: happenedAt, by });
