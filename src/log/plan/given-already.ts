import type { AnimalId, ScheduleId } from '../../core/ids.js';
import type { LogRecord } from '../record.js';
import { dayOf } from '../views/animal.js';
import { effective } from '../views/effective.js';
import type { RoundFacts } from '../views/round-facts.js';
import type { World } from '../views/world.js';

/**
 * The last dose of a line that is on record already: on this round, on the day of its sheet, or between its being laid
 * down and that day, whichever device or round it came from. One that was not taken is none.
 */
export function givenAlready(
  world: World,
  animal: AnimalId,
  schedule: ScheduleId,
  { id, plan, plannedAt }: Pick<RoundFacts, 'id' | 'plan' | 'plannedAt'>,
): LogRecord<'treatment-given'> | null {
  const given = effective(world.bySubject.get(`animal:${animal}`) ?? []).filter(
    (record): record is LogRecord<'treatment-given'> => record.kind === 'treatment-given',
  );
  return (
    given.findLast(
      (record) =>
        record.body.schedule === schedule &&
        record.body.outcome !== 'not-taken' &&
        (record.body.round === id ||
          dayOf(record) === plan.on ||
          (record.happenedAt >= plannedAt && dayOf(record) < plan.on)),
    ) ?? null
  );
}
