import { instantAt } from '../../../core/calendar.js';
import type { AnimalId } from '../../../core/ids.js';
import type { AlreadyThere } from '../../../core/intake/plan-import.js';
import type { ReadRow } from '../../../core/intake/taken-in.js';
import { letLeave } from '../../../log/commands/animal.js';
import { type BroughtIn, bringIn } from '../../../log/commands/bring-in.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import type { Draft } from '../../../log/record.js';
import type { World } from '../../../log/views/world.js';

/** The animals on record as an import has to know them. */
export function alreadyThere(world: World): AlreadyThere[] {
  return [...world.animals.values()].map((animal) => {
    const takenIn = (world.bySubject.get(`animal:${animal.id}`) ?? []).find(
      (record) => record.kind === 'animal-taken-in',
    );
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

/** A row that a person has let through, with the id of the animal it becomes. */
export interface TakenRow {
  readonly row: ReadRow;
  readonly animal: AnimalId;
}

/**
 * All records of one import, the file itself first. A weight is put on the day the file names, at noon; one without a
 * day is kept as doubtful: no dose may rest on it. Animals that have left already are taken in and let go.
 */
export function draftsOf(
  taken: readonly TakenRow[],
  file: BodyInput<'file-imported'>,
  at: string,
  zone: string,
): Draft[] {
  const rows = taken.flatMap(({ row, animal }): BroughtIn[] => {
    if (row.animal === null) return [];
    const { weight, chip } = row;
    return [
      {
        animal,
        takenIn: row.animal,
        weight: weight === null ? null : { grams: weight.grams, entered: weight.entered, doubtful: weight.on === null },
        chip: chip === null ? null : { target: 'animal', occasion: 'intake', found: chip, typed: true },
      },
    ];
  });
  const weighedOn = new Map(taken.map(({ row, animal }) => [`animal:${animal}`, row.weight?.on ?? null]));
  const drafts = bringIn(rows, file, at).map((one): Draft => {
    const on = one.kind === 'animal-weighed' ? weighedOn.get(one.subject) : null;
    if (on == null) return one;
    const noon = instantAt(on, '12:00', zone);
    return noon < at ? { ...one, happenedAt: noon } : one;
  });
  const gone = taken.flatMap(({ row, animal }) => (row.left === null ? [] : letLeave(animal, row.left, at)));
  return [...drafts.slice(-1), ...drafts.slice(0, -1), ...gone];
}
