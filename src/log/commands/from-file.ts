import { type CalendarDate, instantAt } from '../../core/calendar.js';
import type { AnimalId } from '../../core/ids.js';
import type { AlreadyThere } from '../../core/intake/plan-import.js';
import type { ReadRow } from '../../core/intake/taken-in.js';
import type { BodyInput } from '../kinds/index.js';
import type { Draft } from '../record.js';
import { effective } from '../views/effective.js';
import type { World } from '../views/world.js';
import { letLeave } from './animal.js';
import { type BroughtIn, bringIn } from './bring-in.js';

/** A row that a person has let through, with the id of the animal it becomes. */
export interface LetThrough {
  readonly row: ReadRow;
  readonly animal: AnimalId;
}

/**
 * All records of one import as one batch. A weight is put on the day the file names, at noon in the shelter's zone; one
 * without a day is marked doubtful, so that no dose rests on it. Animals that have left are taken in and let go.
 * Refused rows give nothing.
 */
export function draftsFromFile(
  rows: readonly LetThrough[],
  file: BodyInput<'file-imported'>,
  at: string,
  zone: string,
): Draft[] {
  const animals = rows.flatMap(({ row, animal }) => broughtIn(row, animal, at, zone) ?? []);
  const gone = rows.flatMap(({ row, animal }) => (row.left === null ? [] : letLeave(animal, row.left, at)));
  return [...bringIn(animals, file, at), ...gone];
}

function broughtIn(row: ReadRow, animal: AnimalId, at: string, zone: string): BroughtIn | null {
  if (row.animal === null) return null;
  const { weight, chip } = row;
  return {
    animal,
    takenIn: row.animal,
    weight: weight === null ? null : { grams: weight.grams, entered: weight.entered, doubtful: weight.on === null },
    weighedAt: weight?.on == null ? undefined : noonOr(weight.on, zone, at),
    chip: chip === null ? null : { target: 'animal', occasion: 'intake', found: chip, typed: true },
  };
}

/** Noon of a day, but never after the act itself. */
function noonOr(day: CalendarDate, zone: string, at: string): string {
  const noon = instantAt(day, '12:00', zone);
  return noon < at ? noon : at;
}

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
