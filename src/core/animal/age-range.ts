import { ageDays, type CalendarDate } from '../calendar.js';
import type { Animal } from './animal.js';

/** Age in whole days, the youngest and the oldest the animal may be. */
export const ageRange = (animal: Pick<Animal, 'born'>, today: CalendarDate) => ({
  youngest: ageDays(animal.born.latest, today),
  oldest: ageDays(animal.born.earliest, today),
});
