import type { Animal } from '../core/animal/animal.js';
import type { Photo } from '../core/animal/photo.js';
import { addDays, ageDays, type CalendarDate, instantAt } from '../core/calendar.js';
import type { AnimalId } from '../core/ids.js';
import { type CastAnimal, cast } from './cast.js';
import type { Chance } from './chance.js';
import { type Ms, msOf } from './instant.js';
import type { Hand, Journal } from './journal.js';
import type { Devices, People, PersonKey } from './people.js';
import type { Wards } from './wards.js';

/** Everything that the days of the demo share. */
export interface Scene {
  readonly journal: Journal;
  readonly chance: Chance;
  readonly people: People;
  readonly devices: Devices;
  readonly wards: Wards;
  readonly animals: ReadonlyMap<string, AnimalId>;
  readonly photos: Readonly<Record<string, Photo>>;
}

/** The day so many days before the last one of the demo. */
export const dayBack = (scene: Scene, daysAgo: number): CalendarDate => addDays(scene.journal.today, -daysAgo);

/** A wall-clock time of such a day, in the shelter's zone. */
export const timeOn = (scene: Scene, daysAgo: number, time: string): Ms =>
  msOf(instantAt(dayBack(scene, daysAgo), time, scene.journal.zone));

export function hand(scene: Scene, by: PersonKey, device: keyof Devices, partner?: PersonKey): Hand {
  const base = { by: scene.people[by], device: scene.devices[device] };
  return partner === undefined ? base : { ...base, with: scene.people[partner] };
}

export function animalId(scene: Scene, key: string): AnimalId {
  const id = scene.animals.get(key);
  if (id === undefined) throw new Error(`no animal ${key} in the cast`);
  return id;
}

/** The animal as its records show it now. */
export function animalNow(scene: Scene, id: AnimalId): Animal {
  const animal = scene.journal.world().animals.get(id);
  if (animal === undefined) throw new Error(`nobody has taken in ${id}`);
  return animal;
}

/** Who of the cast this is; null for the animals of the file. */
export function castOf(scene: Scene, id: AnimalId): CastAnimal | null {
  return cast.find((one) => scene.animals.get(one.key) === id) ?? null;
}

/** The real age on a day, in days: the demo knows it, the shelter may only estimate it. */
export const realAge = (scene: Scene, one: CastAnimal, on: CalendarDate): number =>
  ageDays(addDays(scene.journal.today, -one.ageDays), on);
