import type { Animal } from '../../core/animal/animal.js';
import { dayOfInstant } from '../../core/calendar.js';
import type { CourseState } from '../../core/dosing/course.js';
import type { Dose } from '../../core/dosing/dose.js';
import type { Product, Syringe } from '../../core/dosing/formulary.js';
import type { AnimalId, RoundId, ScheduleId } from '../../core/ids.js';
import { doseFor } from '../views/doses/dose.js';
import { dosesGiven, openedFor } from '../views/doses/opened.js';
import { courseOfLine } from '../views/doses/ordered.js';
import { dueAt } from '../views/due/due-at.js';
import { scheduleNamed } from '../views/due/schedules.js';
import { roundView } from '../views/round/round.js';
import type { Lot, Section } from '../views/shelter.js';
import { byPlace, type World } from '../views/world.js';
import { productFor } from './item-needs.js';
import { keyOfGiving, lotsFor, lotsOfRound } from './lots-of-labels.js';

/** One syringe, pipette or tablet to be made ready, with everything its label says. */
export interface DrawUp {
  readonly key: string;
  readonly animal: Animal;
  readonly section: Section | null;
  readonly schedule: ScheduleId;
  /** What it is for, as the protocol or the order names it. */
  readonly name: string;
  readonly product: Product;
  readonly dose: Dose;
  readonly syringe: Syringe | null;
  /** The lot to take: usable and the first to expire of which enough is left; null when none is. */
  readonly lot: Lot | null;
  /** Which dose of a course it is; null when the product is given once. */
  readonly course: CourseState | null;
}

interface Wanted {
  readonly animal: AnimalId;
  readonly schedules: readonly ScheduleId[];
}

/**
 * Draw-ups of what is due now among the wanted lines, in the order in which the round meets the animals. `round`: the one
 * whose lines they are, so that all of its sheets, labels and screens name one lot for one dose.
 */
export function drawUpsFor(
  world: World,
  wanted: readonly Wanted[],
  now: string,
  round: RoundId | null = null,
): DrawUp[] {
  const { shelter } = world;
  const today = dayOfInstant(now, shelter.zone);
  const order = byPlace(shelter);
  const animals = wanted.flatMap(({ animal, schedules }) => {
    const found = world.animals.get(animal);
    return found === undefined ? [] : [{ animal: found, schedules }];
  });
  animals.sort((a, b) => order(a.animal, b.animal));
  const toGive = animals.map(({ animal, schedules }) => ({
    animal,
    items: dueAt(world, animal, now).flatMap((item) => {
      const isDue = item.status === 'due' || item.status === 'overdue' || item.status === 'when-needed';
      const product =
        item.action === 'give' && schedules.includes(item.schedule) && isDue ? productFor(world, item) : null;
      return product === null ? [] : [{ item, product, key: keyOfGiving(animal, item.schedule) }];
    }),
  }));
  const lots =
    round !== null
      ? lotsOfRound(world, round, today)
      : lotsFor(
          world,
          toGive.flatMap(({ items }) => items.map(({ key, product }) => ({ key, product: product.id }))),
          today,
        );
  return toGive.flatMap(({ animal, items }) =>
    items.flatMap(({ item, product, key }): DrawUp[] => {
      const recent = dosesGiven(world, animal.id);
      const chosen = lots.get(key) ?? null;
      const lot = chosen?.of.is === 'product' && chosen.of.product === product.id ? chosen : null;
      const dose = doseFor(shelter, animal, product, now, today, {
        schedule: item.schedule,
        lot,
        recent,
        opened: openedFor(world, animal.id),
      });
      if (dose === null) return [];
      const own = recent.filter((one) => one.product === product.id).map((one) => one.at);
      return [
        {
          key,
          animal,
          section: shelter.sections.find((one) => one.id === animal.section) ?? null,
          schedule: item.schedule,
          name: scheduleNamed(shelter, item.schedule)?.name ?? product.name,
          product,
          dose,
          syringe: shelter.formulary?.syringes.find((one) => one.id === dose.drawn?.syringe) ?? null,
          lot,
          course: courseOfLine(animal, item.schedule, product, own, now),
        },
      ];
    }),
  );
}

/** What a laid-down round still has to give; nothing for a round that is not known here. */
export function wantedOfRound(world: World, round: RoundId): Wanted[] {
  const view = roundView(world, round);
  return (view?.stops ?? []).flatMap((stop) =>
    stop.animals.map(({ animal, lines }) => ({
      animal: animal.id,
      schedules: lines.filter((line) => line.state === 'open' && line.action === 'give').map((line) => line.schedule),
    })),
  );
}
