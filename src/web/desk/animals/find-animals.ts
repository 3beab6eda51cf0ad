import type { Animal } from '../../../core/animal/animal.js';
import { nameKey, plainForm } from '../../../core/intake/compare.js';

/**
 * Animals whose name, number, chip, litter, kennel or marks hold all the words looked for, without regard to case or
 * accents; the original spelling stays what is shown.
 */
export function findAnimals(animals: readonly Animal[], wanted: string): Animal[] {
  const words = nameKey(wanted)
    .split(' ')
    .filter((word) => word !== '');
  if (words.length === 0) return [...animals];
  return animals.filter((animal) => {
    const text = textOf(animal);
    return words.every((word) => text.includes(word));
  });
}

const textOf = (animal: Animal): string => {
  const { name, label, litter, kennel, marks, chip } = animal;
  const plain = [label, litter?.name ?? '', kennel, marks.collar, marks.coat, marks.mark, chip?.code ?? ''].map(
    plainForm,
  );
  return [nameKey(name), ...plain].join('\n');
};
