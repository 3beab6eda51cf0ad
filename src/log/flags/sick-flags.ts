import type { Animal } from '../../core/animal/animal.js';
import { type Illness, isIllness } from '../../core/animal/named.js';
import { ageDays, type CalendarDate, daysBetween } from '../../core/calendar.js';
import { derived } from '../../core/derived.js';
import { type GrowthAlarm, growthAlarms } from '../../core/growth/alarms.js';
import { gainUntilDays } from '../../core/growth/gain.js';
import { said } from '../../core/said.js';
import type { LogRecord } from '../record.js';
import { dayOf } from '../views/animal.js';
import { deskAndMedical, type Raise } from './flag.js';

/** Who is told of an animal that looks ill. */
export const toldOfIllness = deskAndMedical;

/** Two signs within so many days of each other are taken together. Our choice, no source. */
const together_days = 1;

interface Sign {
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
 * Alarms of the weight curve as it stood with the last of `weighings`, in the order of time; a small loss of a grown cat
 * is not one. The last one counts here although the record doubts it, where nobody was asked to weigh again: a real loss
 * is told at once.
 */
export const weightAlarms = ({ born }: Pick<Animal, 'born'>, weighings: Animal['weighings']): readonly GrowthAlarm[] =>
  alarmsOf(weighings, born);

const alarmsOf = derived((weighings: Animal['weighings'], born: Animal['born']): readonly GrowthAlarm[] => {
  const last = weighings.at(-1);
  if (last === undefined) return [];
  const days = born.basis === 'unknown' ? null : ageDays(born.latest, last.on);
  const young = days !== null && days < gainUntilDays;
  const curve = last.unasked === true ? [...weighings.slice(0, -1), { ...last, doubtful: false }] : weighings;
  return growthAlarms({ weighings: curve, ageDays: days }).filter(({ code }) => code !== 'loss' || young);
});

/**
 * Whether an animal was found ill on a round: its weight there raised an alarm, or a sign of illness was noted, with the
 * round or beside it, on a day on which it was worked on. `own` are its records of the round, of all its `records`.
 */
export function isUnwell(animal: Animal, records: readonly LogRecord[], own: readonly LogRecord[]): boolean {
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
    ).length > 0
  );
}

/**
 * Signs of illness for the medical team and the supervisor: a stop under 8 weeks of age, and with a second sign within a
 * day (our choice, no source). The same sign of the same day is one flag; one that was looked for since and not seen,
 * or whose time is over, is none.
 */
export function sickFlags(animal: Animal, standing: readonly LogRecord[], today: CalendarDate, raise: Raise): void {
  if (animal.left !== null) return;
  const signs = standing.map(signIn).filter((sign) => sign !== null);
  const told = new Set<string>();
  for (const sign of signs) {
    const { code, on, record } = sign;
    if (told.has(`${code} ${on}`) || isOver(sign, standing, today)) continue;
    told.add(`${code} ${on}`);
    const days = animal.born.basis === 'unknown' ? null : ageDays(animal.born.latest, on);
    const second = signs.find((other) => other.code !== code && Math.abs(daysBetween(on, other.on)) <= together_days);
    const grave = second !== undefined || (days !== null && days < gainUntilDays);
    const left = record.kind !== 'observation-noted';
    raise(left ? 'left-ill' : 'looks-ill', grave ? 'stop' : 'attention', record, toldOfIllness, {
      sign: said(`desk.observation.${code}`),
    });
  }
}

/**
 * A person was bitten: whoever it was, and whatever becomes of the animal. It goes only with an answer of the medical team,
 * which knows what the law of the place asks for. Common practice, no source; the days differ by place.
 */
export function biteFlags(standing: readonly LogRecord[], raise: Raise): void {
  for (const record of standing) {
    if (record.kind !== 'observation-noted') continue;
    if (record.body.code === 'bite' && record.body.state === 'present') {
      raise('bit-somebody', 'stop', record, deskAndMedical);
    }
  }
}

function isOver({ code, record }: Sign, standing: readonly LogRecord[], today: CalendarDate): boolean {
  if (record.kind !== 'observation-noted') return false;
  if (record.body.until !== null && record.body.until < today) return true;
  const at = standing.indexOf(record);
  return standing
    .slice(at + 1)
    .some((later) => later.kind === 'observation-noted' && later.body.code === code && later.body.state === 'absent');
}
