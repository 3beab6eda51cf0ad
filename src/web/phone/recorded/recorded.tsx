import { useState } from 'react';
import { useLocation } from 'wouter';
import { onRecord, type RoundRecord, wantsAttention } from '../../../log/bedside/on-record.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { animalPath } from '../../parts/round-paths.js';
import { State } from '../../parts/state.js';
import { AnimalHead } from '../around/animal-head.js';
import { Acts, Place } from '../around/bits.js';
import { stopOf, useRound } from '../around/use-round.js';
import { CorrectSheet } from './correct.js';
import { inOneLine } from './in-one-line.js';

/** What we recorded on this animal, the newest first, each with the way to put it right. */
export function Recorded({ animal }: { animal: string }) {
  const { view, world, round } = useRound();
  const [correcting, setCorrecting] = useState<RoundRecord | null>(null);
  const [, go] = useLocation();
  const found = stopOf(view, animal);
  if (found === null) return <p className="round-body">{say('round.animal.not-here')}</p>;
  const records = onRecord(world, animal, round);
  return (
    <>
      <Place at={found.at} />
      <div className="round-body">
        <AnimalHead animal={found.stop.animal} />
        <h2>{say('round.recorded.title')}</h2>
        {records.length === 0 ? <p>{say('round.recorded.nothing')}</p> : null}
        <ul className="plain round-list">
          {records.map((record) => (
            <li key={record.id} className="record-row">
              <State tone={wantsAttention(record, world) ? 'attention' : 'plain'}>
                {say('round.recorded.at', { at: { instant: record.happenedAt }, what: inOneLine(record, world) })}
              </State>
              <Act size="mid" onAct={() => setCorrecting(record)}>
                {say('round.correct.open')}
              </Act>
            </li>
          ))}
        </ul>
      </div>
      <Acts>
        <Act main size="big" onAct={() => go(animalPath(round, animal))}>
          {say('round.read.to-animal', { animal: found.stop.animal.name || found.stop.animal.label })}
        </Act>
      </Acts>
      {correcting === null ? null : (
        <CorrectSheet key={correcting.id} record={correcting} stop={found.stop} onClose={() => setCorrecting(null)} />
      )}
    </>
  );
}
