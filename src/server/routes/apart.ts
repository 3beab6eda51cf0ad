import type { z } from 'zod';
import type * as wire from '../../api/wire-sign-in.js';
import { admission } from '../../log/admit.js';
import { signersOf } from '../../log/private-side.js';
import type { LogRecord } from '../../log/record.js';
import type { Asked, Context } from '../context.js';
import { asksJudge } from '../sign-in/hands.js';
import { headOf } from './shelter.js';

export async function apartList({ signIns }: Context): Promise<z.output<typeof wire.ApartList>> {
  const records = signIns.apart().map(({ raw, ...rest }) => ({ ...rest, record: JSON.parse(raw) as unknown }));
  return { records };
}

/**
 * A person has judged: into the log as they are, by the roles of who did and wrote them, or not at all. What may not come
 * in for another reason, or is another's to take in, stays.
 */
export async function judgeApart(
  context: Context,
  { body, shelter, who }: Asked<undefined, z.output<typeof wire.JudgeApart>>,
): Promise<z.output<typeof wire.Judged>> {
  const { signIns, store, clock } = context;
  const chosen = signIns.apart().filter(({ id }) => body.ids.includes(id));
  const gone: string[] = [];
  if (body.take) {
    const records = chosen.map(({ raw }) => JSON.parse(raw) as unknown);
    const signers = signersOf(await context.people.people());
    const judge = asksJudge({ signIns, shelter, signers }, who);
    const admit = await admission(shelter, signers, records, (ids) => store.read({ ids }), undefined, judge);
    const admitted = records.flatMap((raw): LogRecord[] => {
      const answer = admit(raw);
      return answer.ok ? [answer.record] : [];
    });
    const answers = admitted.length === 0 ? [] : await store.append(admitted, clock());
    gone.push(...answers.flatMap(({ id, outcome }) => (outcome === 'conflict' || id === null ? [] : [id])));
    context.grown.tell(await store.head());
  } else gone.push(...chosen.map(({ id }) => id));
  for (const id of gone) signIns.dropApart(id);
  const taken = body.take ? gone.length : 0;
  return {
    taken,
    dropped: gone.length - taken,
    stay: chosen.length - gone.length,
    head: await headOf(store),
  };
}
