import type { Animal } from '../../core/animal/animal.js';
import { sameChip } from '../../core/chip/read-chip.js';
import { said } from '../../core/said.js';
import { type Raised, writerOf } from './flag.js';
import type { World } from './world.js';

/**
 * Chips that were read in an animal without one of its own on record, and that are on nobody else's: somebody may own
 * it. One that the team put off as another cat's, or as misread, is said too. Each number once for each animal.
 */
export function ownerFlags(world: World): Raised[] {
  return [...world.animals.values()].flatMap((animal) => {
    const told = new Set<string>();
    return animal.scans.flatMap((scan): Raised[] => {
      const { code, occasion, ofAnother } = scan;
      if (scan.target !== 'animal' || code === null || told.has(code)) return [];
      if (occasion !== 'identify' && occasion !== 'before') return [];
      if (isImplanted(animal, code) || isOnAnother(world, animal, code)) return [];
      if (occasion === 'identify' && animal.chip !== null && ofAnother !== true) return [];
      told.add(code);
      const record = world.bySubject.get(`animal:${animal.id}`)?.find((one) => one.id === scan.record);
      if (record === undefined) return [];
      const name = ofAnother === true ? 'chip-put-off' : 'chip-owner';
      return [
        {
          key: `${name}:${record.id}`,
          code: name,
          severity: ofAnother === true ? 'attention' : 'stop',
          animal: animal.id,
          about: record.id,
          raisedAt: record.happenedAt,
          for: ['supervisor', 'medical'],
          why: said(`flag.${name}`, { animal: animal.name || animal.label, chip: code }),
          by: record.by,
          ...writerOf(record),
        },
      ];
    });
  });
}

const isImplanted = ({ history, chip }: Animal, code: string): boolean =>
  chip !== null && sameChip(chip.code, code) && history.some((one) => one.what === 'chipped' && one.implanted === true);

const isOnAnother = (world: World, { id }: Animal, code: string): boolean =>
  [...world.animals.values()].some(
    (other) => other.id !== id && other.chip !== null && sameChip(other.chip.code, code),
  );
