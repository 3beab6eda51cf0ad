import { useCallback, useEffect, useState } from 'react';
import type { z } from 'zod';
import type { ApartList } from '../../../api/wire-sign-in.js';
import { parseRecord } from '../../../log/record.js';
import { animalName } from '../../../told/names.js';
import { tell } from '../../../told/tell.js';
import { personName, say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Notice } from '../../parts/state.js';
import { signing } from '../../sign-in/asks.js';
import { sync } from '../../store/exchange.js';
import { useWorld } from '../../store/here.js';

type One = z.output<typeof ApartList>['records'][number];

/** Records that nobody could vouch for: each is taken into the log or dropped by a person. */
export function ApartRecords() {
  const [records, setRecords] = useState<readonly One[]>([]);
  const world = useWorld();
  const ask = useCallback(async (): Promise<void> => {
    const answer = await signing.apart();
    if (answer.ok) setRecords(answer.value.records);
  }, []);
  useEffect(() => {
    void ask();
  }, [ask]);
  const judge = async (ids: readonly string[], take: boolean): Promise<void> => {
    await signing.judgeApart({ ids: [...ids], take });
    await ask();
    void sync.once();
  };
  const words = ({ record, id }: One): string => {
    const parsed = parseRecord(record);
    if (!parsed.ok) return id;
    const { value } = parsed;
    const about = value.subject.startsWith('animal:') ? `${animalName(world, value.subject.slice(7))}: ` : '';
    const who = { name: personName(value.writtenBy ?? value.by), at: { instant: value.happenedAt } };
    return say('people.apart.line', { what: `${about}${say(tell(world, value))}`, ...who });
  };
  if (records.length === 0) return null;
  return (
    <section className="stack" aria-label={say('people.apart.title')}>
      <h3>{say('people.apart.title')}</h3>
      <Notice tone="attention">{say('people.apart.lead')}</Notice>
      {records.map((one) => (
        <div key={one.id} className="row">
          <span>
            {words(one)} <span className="soft small">{say(`people.apart.why-${one.why}`)}</span>
          </span>
          <Act size="small" onAct={() => judge([one.id], true)}>
            {say('people.apart.take')}
          </Act>
          <Act stop size="small" onAct={() => judge([one.id], false)}>
            {say('people.apart.drop')}
          </Act>
        </div>
      ))}
    </section>
  );
}
