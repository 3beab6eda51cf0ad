import type { Animal, NotGiven } from '../../../core/animal/animal.js';
import { isOrderSchedule, orderNamed, orderSchedule } from '../../../core/animal/vet-order.js';
import type { CalendarDate } from '../../../core/calendar.js';
import { derived } from '../../../core/derived.js';
import type { AnimalId, ScheduleId } from '../../../core/ids.js';
import type { DueItem } from '../../../core/protocol/due.js';
import type { LogRecord } from '../../record.js';
import { foldAnimal } from '../animal.js';
import { dueOf } from '../due/due.js';
import type { Ground } from '../ground.js';
import type { RoundFacts } from '../round-facts.js';

/** What is asked of everything that a device knows. */
interface Known {
  readonly bySubject: ReadonlyMap<string, readonly LogRecord[]>;
  readonly ground: Ground;
  /** What is due to an animal on the day of the round. */
  readonly dueIn: (animal: Animal) => readonly DueItem[];
}

/** Of a line only what an ended order changes. */
interface Line {
  readonly schedule: ScheduleId;
  readonly name: string;
  readonly state: 'open' | 'running' | 'part' | 'done' | 'not-done';
  readonly reason: '' | NotGiven;
}

/**
 * What became due to an animal on the day of a round after the round had been laid, and is not in its plan: orders that
 * the plan does not know, and whatever records made since have brought on. Nothing once the round was handed back.
 */
export function addedTo(world: Known, facts: RoundFacts, animal: Animal, planned: readonly ScheduleId[]): ScheduleId[] {
  if (facts.handedBack !== null) return [];
  const due = dueOn(world.dueIn(animal)).filter((schedule) => !planned.includes(schedule));
  if (due.length === 0) return [];
  const records = world.bySubject.get(`animal:${animal.id}`) ?? [];
  const then = dueThen(records, world.ground, animal.id, facts.plannedAt, facts.plan.on);
  return due.filter((schedule) => isOrderSchedule(schedule) || !then.includes(schedule));
}

/** Lines of orders that have ended or were taken back since the round was laid: they are not offered any more. */
export function withoutEnded<L extends Line>(world: Known, facts: RoundFacts, animal: Animal, line: L): L {
  if (facts.handedBack !== null || line.state !== 'open' || !isOrderSchedule(line.schedule)) return line;
  const order = orderNamed(animal, line.schedule);
  if (order !== null && (order.ended === null || dueOn(world.dueIn(animal)).includes(line.schedule))) return line;
  const written = (world.bySubject.get(`animal:${animal.id}`) ?? []).find(
    ({ id, kind }) => kind === 'order-written' && orderSchedule(id) === line.schedule,
  );
  const name = written?.kind === 'order-written' ? written.body.order.name : line.name;
  return { ...line, name, state: 'not-done', reason: 'order-ended' };
}

const dueOn = (items: readonly DueItem[]): ScheduleId[] =>
  items.flatMap(({ schedule, status }) => (status === 'due' || status === 'overdue' ? [schedule] : []));

/** What was due by the records that had been written down when the round was laid. */
const dueThen = derived(
  (
    records: readonly LogRecord[],
    ground: Ground,
    id: AnimalId,
    plannedAt: string,
    on: CalendarDate,
  ): readonly ScheduleId[] => {
    const known = records.filter(({ recordedAt }) => recordedAt <= plannedAt);
    const animal = foldAnimal(id, known, ground);
    if (animal === null) return [];
    return dueOn(dueOf(animal, ground, on));
  },
);
