import type { Animal } from '../../core/animal/animal.js';
import { derived } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { nameKey, plainForm } from '../../core/intake/compare.js';
import type { NumberHolderRow } from '../read-rows.js';
import type { LogRecord } from '../record.js';
import { ofKinds } from './parts.js';
import type { World } from './world.js';

/** The number under which an animal in care stands; none for one without a number, or that has left. */
export const numberHolders = (
  { id, label, name, left }: Animal,
  standing: readonly LogRecord[],
): readonly NumberHolderRow[] => (left === null ? holdersOf(described(standing), id, label, name) : none);

const none: readonly NumberHolderRow[] = [];
const described = ofKinds('animal-taken-in', 'animal-described');

const holdersOf = derived(
  (
    records: ReturnType<typeof described>,
    animal: AnimalId,
    label: string,
    name: string,
  ): readonly NumberHolderRow[] => {
    const number = plainForm(label);
    if (number === '') return none;
    const since = records.findLast(({ kind, body }) => kind === 'animal-taken-in' || body.label !== undefined);
    return [{ number, animal, label, called: name || label, since: since?.happenedAt ?? '' }];
  },
);

/** Others in care that can be taken for an animal by what they are called. */
export interface Twins {
  /** Those of the same name. */
  readonly name: readonly Animal[];
  /** Those of the same number, which should not be. */
  readonly number: readonly Animal[];
}

const noTwins: Twins = { name: [], number: [] };

/** Animals in care by what they are called. */
const called = derived((animals: World['animals']) => {
  const byName = new Map<string, Animal[]>();
  const byNumber = new Map<string, Animal[]>();
  const add = (to: Map<string, Animal[]>, key: string, animal: Animal): void => {
    const there = to.get(key);
    if (there !== undefined) there.push(animal);
    else if (key !== '') to.set(key, [animal]);
  };
  for (const animal of animals.values()) {
    if (animal.left !== null) continue;
    add(byName, nameKey(animal.name), animal);
    add(byNumber, plainForm(animal.label), animal);
  }
  return { byName, byNumber };
});

export function twinsOf({ animals }: Pick<World, 'animals'>, { id, name, label }: Animal): Twins {
  const { byName, byNumber } = called(animals);
  const others = (all: readonly Animal[] | undefined): Animal[] =>
    (all ?? []).filter((one) => one.id !== (id as AnimalId));
  const [names, numbers] = [others(byName.get(nameKey(name))), others(byNumber.get(plainForm(label)))];
  return names.length + numbers.length === 0 ? noTwins : { name: names, number: numbers };
}
