import { ScheduleId } from '../../core/ids.js';
import type { Said, SayValue } from '../../core/said.js';
import { scheduleNamed } from '../../log/views/due/schedules.js';
import type { World } from '../../log/views/world.js';
import { nameOf } from '../../told/names.js';

/** How the planner's ids are called among people: animals, litters, sections and tests by name. */
export type Names = (id: string) => string;

export function namesIn(world: World): Names {
  const animals = new Map<string, string>();
  const litters = new Map<string, string>();
  for (const animal of world.animals.values()) {
    animals.set(animal.id, nameOf(animal));
    if (animal.litter !== null) litters.set(animal.litter.id, animal.litter.name);
  }
  const sections = new Map(world.shelter.sections.map((one) => [one.id as string, one.name]));
  return (id) => {
    const own = animals.get(id) ?? litters.get(id) ?? sections.get(id);
    if (own !== undefined) return own;
    // A litter's id in a plan is section/litter; a single animal is a litter of its own.
    const part = id.slice(id.indexOf('/') + 1);
    const schedule = ScheduleId.safeParse(id).data;
    const test = schedule === undefined ? null : scheduleNamed(world.shelter, schedule);
    return animals.get(part) ?? litters.get(part) ?? test?.name ?? id;
  };
}

const keys: readonly string[] = ['animal', 'other', 'animals', 'litter', 'section'];

/** A sentence of the planner with names in the place of ids. */
export function named(sentence: Said, names: Names): Said {
  const given: Readonly<Record<string, SayValue>> = sentence.with ?? {};
  const changed = Object.entries(given).map(([key, value]): [string, SayValue] => {
    if (!keys.includes(key)) return [key, value];
    if (typeof value === 'string') return [key, names(value)];
    if (typeof value === 'object' && 'list' in value)
      return [key, { list: value.list.map((one) => (typeof one === 'string' ? names(one) : one)) }];
    return [key, value];
  });
  return { ...sentence, with: Object.fromEntries(changed) };
}
