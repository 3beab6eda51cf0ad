import type { Animal } from '../../../core/animal/animal.js';
import { sameChip } from '../../../core/chip/read-chip.js';
import type { World } from '../world.js';

/** The animals on this device with a number as their chip on record. Of more than one, the number tells none of them. */
export const carriersOf = ({ animals }: Pick<World, 'animals'>, code: string): Animal[] =>
  [...animals.values()].filter(({ chip }) => chip !== null && sameChip(chip.code, code));
