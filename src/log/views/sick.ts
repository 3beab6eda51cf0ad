import type { Animal } from '../../core/animal/animal.js';
import { type Illness, isIllness } from '../../core/animal/named.js';
import { ageDays, type CalendarDate } from '../../core/calendar.js';
import { derived } from '../../core/derived.js';
import { type GrowthAlarm, growthAlarms } from '../../core/growth/alarms.js';
import { type AgeBand, rulesFor } from '../../core/growth/watch.js';
import { RecordId } from '../../core/ids.js';
import type { LogRecord } from '../record.js';
import { dayOf } from './animal.js';
import type { Shelter } from './shelter.js';

/** The signed protocol says what of a weight is told. */
type Documents = Pick<Shelter, 'protocol'>;

export interface Sign {
  readonly code: Illness;
  readonly on: CalendarDate;
  readonly record: LogRecord;
}

/** The sign of illness that a record tells of; null when it tells of none. */
export function signIn(record: LogRecord): Sign | null {
  switch (record.kind) {
    case 'observation-noted': {
      const { code, state, on } = record.body;
      return state === 'present' && isIllness(code) ? { code, on, record } : null;
    }
    case 'treatment-not-given':
      return record.body.reason === 'animal-ill' ? { code: 'ill', on: dayOf(record), record } : null;
    case 'test-abandoned':
      return record.body.why === 'animal-ill' ? { code: 'ill', on: dayOf(record), record } : null;
    default:
      return null;
  }
}

/**
 * Alarms of the weight curve as it stood with the last of `weighings`, in the order of time, by the limits of the signed
 * protocol. The last one counts here although the record doubts it, where nobody was asked to weigh again: a real loss is told
 * at once.
 */
export const weightAlarms = (
  { born }: Pick<Animal, 'born'>,
  weighings: Animal['weighings'],
  { protocol }: Documents,
): readonly GrowthAlarm[] => alarmsOf(weighings, born, protocol?.weightWatch ?? notWatched);

/** What a weight that is typed just now would be told of, before it is kept. */
export const alarmsOfWeight = (
  animal: Pick<Animal, 'born' | 'weighings'>,
  { grams, at, on }: Pick<Animal['weighings'][number], 'grams' | 'at' | 'on'>,
  documents: Documents,
): readonly GrowthAlarm[] => {
  const before = animal.weighings.filter((one) => !one.doubtful && one.at < at);
  return weightAlarms(animal, [...before, { ...typed, grams, at, on }], documents);
};
const typed = { record: RecordId.parse('typed'), doubtful: false };

/** Each weighing of an animal that was told of when it was made, with what was told first. */
export const alarmsAlong = derived(
  (weighings: Animal['weighings'], born: Animal['born'], protocol: Documents['protocol']) =>
    new Map(
      weighings.flatMap(({ record }, at): [RecordId, GrowthAlarm][] => {
        const [alarm] = weightAlarms({ born }, weighings.slice(0, at + 1), { protocol });
        return alarm === undefined ? [] : [[record, alarm]];
      }),
    ),
);

const notWatched: readonly AgeBand[] = [];

const alarmsOf = derived(
  (weighings: Animal['weighings'], born: Animal['born'], watch: readonly AgeBand[]): readonly GrowthAlarm[] => {
    const last = weighings.at(-1);
    if (last === undefined) return [];
    const days = born.basis === 'unknown' ? null : ageDays(born.latest, last.on);
    const curve = last.unasked === true ? [...weighings.slice(0, -1), { ...last, doubtful: false }] : weighings;
    return growthAlarms({ weighings: curve, ageDays: days, rules: rulesFor(watch, born, last.on) });
  },
);

/**
 * Whether an animal was found ill on a round: its weight there raised an alarm, or a sign of illness was noted, with the
 * round or beside it, on a day on which it was worked on. `own` are its records of the round, of all its `records`.
 */
export function isUnwell(
  animal: Animal,
  records: readonly LogRecord[],
  own: readonly LogRecord[],
  documents: Documents,
): boolean {
  if (own.length === 0) return false;
  const days = new Set(own.map(dayOf));
  const seen = records.some((record) => {
    const sign = signIn(record);
    return sign !== null && days.has(sign.on);
  });
  const weighed = own.findLast((record) => record.kind === 'animal-weighed');
  if (seen || weighed === undefined) return seen;
  return (
    weightAlarms(
      animal,
      animal.weighings.filter(({ at }) => at <= weighed.happenedAt),
      documents,
    ).length > 0
  );
}
