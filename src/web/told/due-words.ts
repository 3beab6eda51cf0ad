import type { Source } from '../../core/dosing/formulary.js';
import type { DueItem, DueStatus } from '../../core/protocol/due.js';
import type { Shelter } from '../../log/views/shelter.js';
import { say } from '../../words/say.js';
import type { Tone } from '../parts/state.js';

export const toneOfDue: Readonly<Record<DueStatus, Tone>> = {
  overdue: 'stop',
  due: 'attention',
  'not-yet': 'plain',
  'on-hold': 'attention',
  complete: 'done',
  'aged-out': 'plain',
  'not-recommended': 'plain',
};

/** The treatment, with the number of the dose where doses are counted. */
export const treatmentName = (item: DueItem): string =>
  item.action === 'give' && item.dose > 1
    ? say('desk.due.dose', { name: item.scheduleName, dose: item.dose })
    : item.scheduleName;

/** Why, in a sentence; for a held item first why it waits. */
export const whyDue = (item: DueItem): string =>
  item.hold === null ? say(item.because) : `${say(item.hold.why)} ${say(item.because)}`;

/** Titles of the sources that an item rests on. */
export function sourcesOf(shelter: Shelter, ids: readonly string[]): Source[] {
  const known = [...(shelter.protocol?.sources ?? []), ...(shelter.formulary?.sources ?? [])];
  return [...new Set(ids)].flatMap((id) => known.find((source) => source.id === id) ?? []);
}
