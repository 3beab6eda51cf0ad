import type { Animal } from '../../core/animal/animal.js';
import { boxOfChip, chipsOf } from '../views/chips/chip-pack.js';
import { meaningOfScan } from '../views/round/identity.js';
import type { World } from '../views/world.js';

/**
 * Whether a number that was read shows that the reader reads: a chip on another animal's record, or one of a box that
 * was never in this animal or read in it. Any other number may be this animal's, and is a scan of it.
 */
export function provesReader(world: World, animal: Animal, code: string): boolean {
  const { is } = meaningOfScan(animal, code, world);
  if (is === 'other' || is === 'elsewhere') return true;
  if (is === 'match' || chipsOf(world).read.get(code) === animal.id) return false;
  return boxOfChip(code, world.shelter.lots.values()) !== null;
}
