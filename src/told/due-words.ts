import type { Source } from '../core/dosing/formulary.js';
import type { DueItem, DueStatus } from '../core/protocol/due.js';
import type { Shelter } from '../log/views/shelter.js';
import { say } from '../words/say.js';
import type { Tone } from './tone.js';

export const toneOfDue: Readonly<Record<DueStatus, Tone>> = {
  overdue: 'stop',
  due: 'attention',
  'to-confirm': 'stop',
  'ended-missed': 'stop',
  'when-needed': 'plain',
  'not-yet': 'plain',
  'on-hold': 'attention',
  complete: 'done',
  'aged-out': 'plain',
  'not-recommended': 'plain',
};

/** How an item stands, in a word with its tone. What is not settled never has a tick, whatever else is complete. */
export function stateOfDue(item: DueItem): { readonly tone: Tone; readonly text: string } {
  const { status, confirm, finding } = item;
  const text = say(`desk.due.status.${status}`);
  if (finding !== undefined) return { tone: 'attention', text: say(`desk.due.finding.${finding}`) };
  if (confirm?.state === 'planned' && confirm.followUp?.says.is === 'plan') {
    const plan = { date: { date: confirm.followUp.says.on }, person: { person: confirm.followUp.person } };
    return {
      tone: 'stop',
      text:
        status === 'to-confirm'
          ? say('desk.due.reactive.planned', plan)
          : say('desk.due.reactive.open-planned', { status: text, ...plan }),
    };
  }
  if (confirm === undefined || status === 'to-confirm') return { tone: toneOfDue[status], text };
  if (confirm.state !== 'confirmed' && confirm.state !== 'not-confirmed')
    return { tone: 'stop', text: say('desk.due.reactive.open', { status: text }) };
  return {
    tone: confirm.state === 'confirmed' ? 'stop' : 'attention',
    text: say(`desk.due.reactive.${confirm.state}`),
  };
}

/** The treatment, with the number of the dose where doses are counted. */
export const treatmentName = (item: DueItem): string =>
  item.action === 'give' && item.dose > 1
    ? say('desk.due.dose', { name: item.scheduleName, dose: item.dose })
    : item.scheduleName;

/** Titles of the sources that an item rests on. */
export function sourcesOf(shelter: Shelter, ids: readonly string[]): Source[] {
  const known = [...(shelter.protocol?.sources ?? []), ...(shelter.formulary?.sources ?? [])];
  return [...new Set(ids)].flatMap((id) => known.find((source) => source.id === id) ?? []);
}
