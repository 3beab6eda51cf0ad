import { addDays, type CalendarDate, daysBetween } from '../../core/calendar.js';
import type { AnimalId } from '../../core/ids.js';
import { no, type Outcome, ok } from '../../core/said.js';
import type { BodyInput } from '../kinds/index.js';
import { type Draft, draft } from '../record.js';
import type { KnownPerson } from '../views/shelter.js';

/** Longest that one word may count, days; ours. A longer one is a standing order of the signed formulary. */
export const longestWord_days = 60;

/**
 * Write down a veterinarian's word that opens gates for one animal and product. The veterinarian has a licence on
 * record, the reason is in words, and the last day is named and not far off.
 */
export function openGates(
  vet: Pick<KnownPerson, 'id' | 'licence'>,
  animal: AnimalId,
  what: Omit<BodyInput<'gate-opened'>, 'vet'>,
  today: CalendarDate,
  at: string,
): Outcome<Draft[]> {
  if (vet.licence.trim() === '') return no('drawup.word.needs-licence', { name: { person: vet.id } });
  if (what.reason.trim() === '') return no('drawup.word.needs-reason');
  const days = daysBetween(today, what.until as CalendarDate);
  if (days < 0) return no('drawup.word.past', { until: { date: what.until as CalendarDate } });
  if (days > longestWord_days) {
    return no('drawup.word.too-long', { most: { date: addDays(today, longestWord_days) } });
  }
  const body = { ...what, vet: vet.id };
  return ok([draft('gate-opened', `animal:${animal}`, body, at)]);
}
