import type { Client } from '../../api/client.js';
import type { PersonId } from '../../core/ids.js';
import { type Said, said } from '../../core/said.js';
import type { PeopleHere } from '../store/people.js';
import type { Reach } from './reach.js';

/**
 * Send what was changed here about people, each change while whoever made it is signed in; before the records, because a
 * signature is held against the name and licence. What the server will not have stays here with its reason and holds up
 * nothing, and neither does what waits for somebody else.
 */
export async function sendPeople(people: PeopleHere, client: Client, person: PersonId | null): Promise<Reach> {
  for (const one of people.waiting.get()) {
    if (one.why !== null || one.by !== person) continue;
    const sent = await client.changePeople({ changes: [one.change] });
    if (sent.ok) {
      const outcome = sent.value.outcomes[0] ?? 'kept';
      await people.settle(one, outcome === 'kept' ? null : said(`parts.people.${outcome}`));
    } else if (sent.problem === null || sent.problem.status >= 500) return { reached: false, code: sent.code };
    else await people.settle(one, (sent.problem.said as Said | undefined) ?? said('parts.turned-away'));
  }
  return { reached: true };
}

/**
 * Take the list of names whole where it is another one: who was withdrawn is known here no longer. After the records,
 * because the list has only people who are in them.
 */
export async function fetchPeople(people: PeopleHere, client: Client): Promise<Reach> {
  const answer = await client.people({ have: await people.tag() });
  if (!answer.ok) return { reached: false, code: answer.code };
  if (answer.value.people !== null) await people.take(answer.value.people, answer.value.tag);
  return { reached: true };
}
