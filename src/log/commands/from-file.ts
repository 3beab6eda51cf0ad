import { type CalendarDate, instantAt } from '../../core/calendar.js';
import type { AnimalId } from '../../core/ids.js';
import type { AlreadyThere } from '../../core/intake/plan-import.js';
import type { ReadRow } from '../../core/intake/taken-in.js';
import { type Draft, draft } from '../record.js';
import { effective } from '../views/effective.js';
import type { World } from '../views/world.js';
import type { BroughtIn } from './bring-in.js';

/**
 * A row that a person has let through as an animal to bring in; null for a refused row. A weight without a day of its
 * own is marked doubtful, so that no dose rests on it; with one it is recorded at noon of that day in the shelter's zone.
 */
export function broughtInFrom(row: ReadRow, animal: AnimalId, zone: string, now: string): BroughtIn | null {
  if (row.animal === null) return null;
  const { weight, chip } = row;
  return {
    animal,
    takenIn: row.animal,
    weight: weight === null ? null : { grams: weight.grams, entered: weight.entered, doubtful: weight.on === null },
    weighedAt: weight?.on == null ? undefined : noonOrNow(weight.on, zone, now),
    chip: chip === null ? null : { target: 'animal', occasion: 'intake', found: chip, typed: true },
  };
}

/** The leaving of an animal that is brought in although it has left. */
export function leavingFrom(row: ReadRow, animal: AnimalId, zone: string, now: string): Draft[] {
  if (row.left === null) return [];
  return [draft('animal-left', `animal:${animal}`, row.left, noonOrNow(row.left.on, zone, now))];
}

const noonOrNow = (day: CalendarDate, zone: string, now: string): string => {
  const noon = instantAt(day, '12:00', zone);
  return noon < now ? noon : now;
};

/** The animals on record as an import compares its rows with them. */
export function alreadyThere(world: World): AlreadyThere[] {
  return [...world.animals.values()].map((animal) => {
    const records = effective(world.bySubject.get(`animal:${animal.id}`) ?? []);
    const takenIn = records.find((record) => record.kind === 'animal-taken-in');
    return {
      key: takenIn?.kind === 'animal-taken-in' ? (takenIn.body.origin?.key ?? null) : null,
      label: animal.label,
      name: animal.name,
      chip: animal.chip?.code ?? null,
      arrivedOn: animal.arrivedOn,
      leftOn: animal.left?.on ?? null,
    };
  });
}
