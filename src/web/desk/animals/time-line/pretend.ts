import type { Animal, HistoryEvent } from '../../../../core/animal/animal.js';
import type { CalendarDate } from '../../../../core/calendar.js';
import type { ProductId, RecordId, ScheduleId } from '../../../../core/ids.js';

/** Noon: a pretended event has a day only, and the middle of it keeps that day in any zone of a shelter. */
const noonOf = (day: CalendarDate): string => `${day}T12:00:00.000Z`;
const pretended = (what: string, day: CalendarDate): RecordId => `pretended-${what}-${day}` as RecordId;

const withEvent = (animal: Animal, event: HistoryEvent): Animal => ({
  ...animal,
  history: [...animal.history, event].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)),
});

/** The animal as it would be had this been given on a day. A value of its own: nothing is recorded. */
export function hadBeenGiven(animal: Animal, schedule: ScheduleId, product: ProductId, on: CalendarDate): Animal {
  const record = pretended(`${schedule}-${product}`, on);
  return withEvent(animal, {
    what: 'given',
    record,
    at: noonOf(on),
    on,
    schedule,
    product,
    lot: null,
    substandard: null,
  });
}

/** The animal as it would be had it weighed so many grams on a day. */
export function hadWeighed(animal: Animal, grams: number, on: CalendarDate): Animal {
  const record = pretended('weight', on);
  const weighings = [...animal.weighings, { record, at: noonOf(on), on, grams, doubtful: false }];
  return {
    ...withEvent(animal, { what: 'weighed', record, at: noonOf(on), on, grams }),
    weighings: weighings.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)),
  };
}

/** The animal as it would be had this been seen on it, or seen to be absent, on a day. */
export function hadBeenSeen(animal: Animal, code: string, state: 'present' | 'absent', on: CalendarDate): Animal {
  const seen = { record: pretended(code, on), code, state, on, until: null, note: '' };
  return { ...animal, observations: [...animal.observations, seen] };
}
