import type { Animal, BirthInterval } from '../core/animal/animal.js';
import { isOrderSchedule, orderNamed } from '../core/animal/vet-order.js';
import { ageDays, type CalendarDate } from '../core/calendar.js';
import { type AnimalId, ScheduleId } from '../core/ids.js';
import { type Said, type SayValue, said } from '../core/said.js';
import type { ChipEntry } from '../log/chip-index.js';
import { kitTypeNamed } from '../log/views/blood-tests/test-runs.js';
import { carriedElsewhere, chipElsewhere, namedElsewhere } from '../log/views/chips/chip-elsewhere.js';
import { scheduleNamed } from '../log/views/due/schedules.js';
import { placeSaid } from '../log/views/place.js';
import type { Shelter } from '../log/views/shelter.js';
import type { World } from '../log/views/world.js';
import { say } from '../words/say.js';
import { shown } from '../words/shown.js';

/** Names for what records point at; an id that nothing is known about stands for itself. */

export function animalName(world: World, id: string): string {
  for (const [key, animal] of world.animals) if (key === id) return nameOf(animal);
  for (const [key, entry] of world.chips.byAnimal) if (key === id) return named(entry);
  return say('parts.left-unnamed', { id: id.slice(-6) });
}

const named = (entry: ChipEntry): string => {
  const name = namedElsewhere(entry);
  return typeof name === 'string' ? name : say(name);
};

/** The name, or the shelter's number for an animal without one. */
export const nameOf = (animal: Pick<Animal, 'name' | 'label'>): string =>
  shown(animal.name === '' ? animal.label : animal.name);

export function scheduleName(shelter: Shelter, id: string | null): SayValue {
  if (id === null) return said('desk.outside-protocol');
  if (isOrderSchedule(id)) return said('desk.an-order');
  const parsed = ScheduleId.safeParse(id);
  return parsed.success ? (scheduleNamed(shelter, parsed.data)?.name ?? id) : id;
}

/** What a line of an animal is called: an order by its own short name. `subject`: of the record that names it. */
export function lineName(world: World, subject: string, id: string | null): SayValue {
  const animal = world.animals.get(subject.replace(/^animal:/, '') as AnimalId);
  const order = animal === undefined ? null : orderNamed(animal, id);
  return order?.terms.name ?? scheduleName(world.shelter, id);
}

export function productName(shelter: Shelter, id: string): string {
  const everything = [shelter.formulary, ...shelter.formularies.map((filed) => filed.document)];
  for (const formulary of everything) {
    const product = formulary?.products.find((one) => one.id === id);
    if (product !== undefined) return product.name;
  }
  return id;
}

export const kitName = (shelter: Shelter, id: string | null): string => kitTypeNamed(shelter, id)?.name ?? id ?? '';

export function syringeName(shelter: Shelter, id: string | null): string {
  const everything = [shelter.formulary, ...shelter.formularies.map((filed) => filed.document)];
  return everything.flatMap((one) => one?.syringes ?? []).find((one) => one.id === id)?.name ?? id ?? '';
}

export function lotName(shelter: Shelter, id: string | null): string {
  for (const [key, lot] of shelter.lots) if (key === id) return lot.lotText;
  return id ?? '';
}

export { placeSaid };

export function bornSaid(born: BirthInterval): Said {
  if (born.basis === 'unknown') return said('desk.born.unknown');
  if (born.earliest === born.latest) {
    return said(born.basis === 'known' ? 'desk.born.known' : 'desk.born.estimated', { date: { date: born.earliest } });
  }
  return said('desk.born.between', { from: { date: born.earliest }, to: { date: born.latest } });
}

/** Age on a day; a span while the birth day is an estimate. */
export function ageSaid(born: BirthInterval, on: CalendarDate): Said {
  const youngest = ageDays(born.latest, on);
  const oldest = ageDays(born.earliest, on);
  if (born.basis === 'unknown') return said('desk.age.unknown');
  return youngest === oldest
    ? said('desk.age.one', { age: { ageDays: youngest } })
    : said('desk.age.between', { youngest: { ageDays: youngest }, oldest: { ageDays: oldest } });
}

/** What tells it from its look-alikes, in one line. */
export const marksLine = (animal: Pick<Animal, 'marks'>): string =>
  [animal.marks.collar, animal.marks.coat, animal.marks.mark].filter((part) => part !== '').join(' · ');

/** A chip in groups of three, as it is read out; text all the way. */
export const chipText = (code: string): string =>
  /^\d{15}$/.test(code) ? code.replace(/(\d{3})(?=\d)/g, '$1\u00a0') : code;

/** Of a number that several animals have as their chip on record. */
export const sharedChip = (code: string, carriers: readonly Parameters<typeof nameOf>[0][]): Said =>
  said('parts.scan-shared', { code: chipText(code), animals: { list: carriers.map(nameOf) } });

/** Of a chip that nobody here carries: whose it is, or on whose record it stands, among the animals that left. */
export function nobodys(world: World, code: string): string {
  const shown = chipText(code);
  const carrier = carriedElsewhere(world, code);
  if (carrier !== null) return say('parts.scan-left', { code: shown, animal: namedElsewhere(carrier) });
  const [other] = chipElsewhere(world, code);
  if (other === undefined) return say('parts.scan-nobody', { code: shown });
  return say('parts.scan-recorded', { code: shown, animal: namedElsewhere(other.entry) });
}
