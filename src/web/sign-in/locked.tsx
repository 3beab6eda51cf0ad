import { useState } from 'react';
import type { PersonId } from '../../core/ids.js';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { ChooseOne } from '../parts/fields/choices.js';
import { Notice } from '../parts/state.js';
import { RunningStrip } from '../running/running-strip.js';
import { usePeople, useShelter, useWho } from '../store/here.js';
import { setLocked } from './idle.js';
import { SecretField } from './secret-field.js';
import { proofOf, signInHere } from './sign-in.js';

/** A device that was left lying: what runs is seen and heard, all else waits for a PIN or password. The page behind it stays as it was. */
export function Locked() {
  const who = useWho();
  const shelter = useShelter();
  const people = usePeople().filter((one) => one.active);
  const [person, setPerson] = useState<PersonId | null>(who.person);
  const [secret, setSecret] = useState('');
  const [failed, setFailed] = useState<string | null>(null);
  const open = async (): Promise<void> => {
    if (person === null) return;
    const partner = person === who.person ? who.partner : null;
    const why = await signInHere(person, proofOf(secret), partner);
    setSecret('');
    setFailed(why);
    if (why === null) await setLocked(false);
  };
  return (
    <main className="page stack">
      <RunningStrip />
      <h1>{shelter.name}</h1>
      <p>{say('people.locked.lead')}</p>
      <ChooseOne
        label={say('desk.start.who')}
        options={people.map((one) => ({ id: one.id, label: one.name, note: say(`parts.role.${one.role}`) }))}
        value={person}
        onChange={setPerson}
      />
      <SecretField value={secret} onChange={setSecret} onEnter={() => void open()} />
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      <div>
        <Act main size="big" disabled={person === null || secret === ''} onAct={open}>
          {say('people.locked.open')}
        </Act>
      </div>
    </main>
  );
}
