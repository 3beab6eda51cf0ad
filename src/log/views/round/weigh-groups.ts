import type { Animal } from '../../../core/animal/animal.js';
import type { Section } from '../shelter.js';
import { byPlace, inCare, type World } from '../world.js';

/** Animals that are weighed one after the other: a litter, or the animals of one section that belong to none. */
export interface WeighGroup {
  readonly key: string;
  /** Name of the litter; empty for the animals of a section without one. */
  readonly litter: string;
  readonly section: Section | null;
  readonly animals: readonly Animal[];
}

/** Everything on the ward as groups for the scale, cleanest section first, litters before the rest of a section. */
export function weighGroups(world: World): WeighGroup[] {
  const { shelter } = world;
  const groups = new Map<string, WeighGroup>();
  for (const animal of inCare(world).sort(byPlace(shelter))) {
    const section = shelter.sections.find((one) => one.id === animal.section) ?? null;
    const place = section?.id ?? '';
    const key = animal.litter === null ? `section-${place}` : `litter-${animal.litter.id}-${place}`;
    const group = groups.get(key) ?? { key, litter: animal.litter?.name ?? '', section, animals: [] };
    groups.set(key, { ...group, animals: [...group.animals, animal] });
  }
  const position = (group: WeighGroup): number =>
    group.section === null ? shelter.sections.length : shelter.sections.indexOf(group.section);
  return [...groups.values()].sort(
    (a, b) => position(a) - position(b) || Number(a.litter === '') - Number(b.litter === ''),
  );
}
