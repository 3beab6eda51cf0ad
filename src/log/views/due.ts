import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import type { DueItem } from '../../core/protocol/due.js';
import { type Evaluated, evaluate } from '../../core/protocol/evaluate.js';
import { forecast } from '../../core/protocol/forecast.js';
import type { ProtocolInput } from '../../core/protocol/input.js';
import type { Shelter } from './shelter.js';

const inputOf = (animal: Animal, shelter: Shelter): ProtocolInput => ({
  animal,
  formulary: shelter.formulary,
  formerFormularies: shelter.formularies.map((filed) => filed.document).toReversed(),
});

/** What is due to one animal by the signed protocol; nothing without one, nothing for an animal that has left. */
export function dueOf(animal: Animal, shelter: Shelter, today: CalendarDate): DueItem[] {
  if (shelter.protocol === null || animal.left !== null) return [];
  return forecast(inputOf(animal, shelter), shelter.protocol, today);
}

/** What each past treatment, test, chip and weighing was worth, by the signed protocol. */
export function worthOf(animal: Animal, shelter: Shelter, today: CalendarDate): Evaluated[] {
  if (shelter.protocol === null) return [];
  return evaluate(inputOf(animal, shelter), shelter.protocol, today);
}

/** Doses that came before they could count. */
export const tooEarly = (animal: Animal, shelter: Shelter, today: CalendarDate): Evaluated[] =>
  worthOf(animal, shelter, today).filter((one) => one.status === 'not-valid' && one.validFrom !== null);
