import { ageRange } from '../../../core/animal/age-range.js';
import type { Animal } from '../../../core/animal/animal.js';
import type { CalendarDate } from '../../../core/calendar.js';
import { weightFresh } from '../../../core/dosing/weight-fresh.js';
import type { Shelter } from '../shelter.js';

/** The weighing a dose is worked out from: the last one nobody doubted after the last doubtful one, else the last. */
export const weighingForDose = (animal: Pick<Animal, 'weighings'>): Animal['weighings'][number] | null =>
  animal.weighings.at(-1) ?? null;

/** Whether a dose by weight could be worked out from the record now; false too when it was never weighed. */
export function weightUsable(shelter: Shelter, animal: Animal, now: string, today: CalendarDate): boolean {
  const weighing = weighingForDose(animal);
  if (weighing === null || weighing.doubtful || shelter.formulary === null) return false;
  return weightFresh(weighing, ageRange(animal, today), shelter.formulary, now).fresh;
}
