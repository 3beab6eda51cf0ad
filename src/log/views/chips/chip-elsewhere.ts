import { derived } from '../../../core/derived.js';
import { type Said, said } from '../../../core/said.js';
import { type ChipEntry, type ChipFound, recordedElsewhere } from '../../chip-index.js';
import type { World } from '../world.js';

type Known = Pick<World, 'animals' | 'chips'>;

/** Animals that a chip number is recorded on and that are not here, as the index of all chips knows them. */
export const chipElsewhere = ({ animals, chips }: Known, code: string): ChipFound[] =>
  recordedElsewhere(chips, animals, code);

/** The animal that is not here and has a number as its chip on record; null when there is none. */
export const carriedElsewhere = (world: Known, code: string): ChipEntry | null =>
  chipElsewhere(world, code).find(({ is }) => is === 'carried')?.entry ?? null;

/** All numbers recorded on animals that are not here. */
export const codesElsewhere = derived((world: World): readonly string[] =>
  [...world.chips.byAnimal.values()].flatMap(({ animal, numbers }) =>
    world.animals.has(animal) ? [] : numbers.map(({ code }) => code),
  ),
);

/** An animal that is not here is named by its label, and by the day on which it left. */
export const namedElsewhere = ({ label, left }: ChipEntry): string | Said =>
  left === null ? label : said('chip.left', { label, on: { date: left } });
