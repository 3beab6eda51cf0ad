import { useState } from 'react';
import type { KnownPerson } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Notice } from '../../parts/state.js';
import { sync } from '../../store/exchange.js';

/** Erase name and contacts of somebody who works here no longer; asked twice, and only within reach of the server. */
export function Erase({ person, onDone }: { person: KnownPerson; onDone: () => void }) {
  const [sure, setSure] = useState(false);
  const [failed, setFailed] = useState<string | null>(null);
  const erase = async (): Promise<void> => {
    const answer = await sync.client.erasePeople({ ids: [person.id] });
    if (!answer.ok) {
      setFailed(answer.problem?.detail ?? say('desk.start.no-answer'));
      return;
    }
    void sync.once();
    onDone();
  };
  return (
    <div className="stack tight">
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      {sure ? (
        <>
          <p>{say('desk.people.erase-sure', { name: person.name })}</p>
          <div className="row">
            <Act stop onAct={erase}>
              {say('desk.people.erase-now')}
            </Act>
            <Act onAct={() => setSure(false)}>{say('parts.back')}</Act>
          </div>
        </>
      ) : (
        <div>
          <Act onAct={() => setSure(true)}>{say('desk.people.erase')}</Act>
        </div>
      )}
    </div>
  );
}
