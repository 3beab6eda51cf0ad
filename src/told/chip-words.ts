import type { Animal } from '../core/animal/animal.js';
import { chipTrust } from '../log/views/chips/chip-trust.js';
import type { Shelter } from '../log/views/shelter.js';
import { say } from '../words/say.js';
import { chipText } from './names.js';

/** Beside the chip on record: that another number was read and neither is trusted; null where nothing says so. */
export function notTrusted(animal: Animal, { answers }: Pick<Shelter, 'answers'>): string | null {
  const two = chipTrust(animal, answers);
  return two === null ? null : say('parts.chip-not-trusted', { other: chipText(two.other) });
}
