import type { AnimalId } from '../../core/ids.js';
import type { BodyInput } from '../kinds/index.js';
import { type Draft, draft } from '../record.js';

/** An animal of a file with what else its row says. Only rows that a person has let through come here. */
export interface BroughtIn {
  readonly animal: AnimalId;
  readonly takenIn: BodyInput<'animal-taken-in'>;
  readonly weight: BodyInput<'animal-weighed'> | null;
  /** When it was weighed, if the file tells: an old weight must not look fresh. Else the moment of import. */
  readonly weighedAt?: string | undefined;
  readonly chip: BodyInput<'chip-scanned'> | null;
}

/**
 * The records of one import, as one batch: all of it is kept or none. What the file says about a weight or a chip is
 * recorded as reported by the file, at the moment of import unless the file tells the day of weighing.
 */
export function bringIn(rows: readonly BroughtIn[], file: BodyInput<'file-imported'>, at: string): Draft[] {
  return [
    ...rows.flatMap(({ animal, takenIn, weight, weighedAt, chip }): Draft[] => [
      draft('animal-taken-in', `animal:${animal}`, takenIn, at),
      ...(weight === null ? [] : [draft('animal-weighed', `animal:${animal}`, weight, weighedAt ?? at)]),
      ...(chip === null ? [] : [draft('chip-scanned', `animal:${animal}`, chip, at)]),
    ]),
    draft('file-imported', `file:${file.digest}`, file, at),
  ];
}
