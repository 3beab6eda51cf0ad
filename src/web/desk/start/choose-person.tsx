import { useState } from 'react';
import type { PersonId } from '../../../core/ids.js';
import type { Role } from '../../../core/people.js';
import { allKnown } from '../../../words/known.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Notice } from '../../parts/state.js';
import { ByCode } from '../../sign-in/by-code.js';
import { SecretField } from '../../sign-in/secret-field.js';
import { proofOf, signInHere } from '../../sign-in/sign-in.js';
import { useNames } from '../../store/here.js';

interface ChoosePersonProps {
  readonly shelter: string;
  /** The invented shelter: everybody signs in with one tap. */
  readonly demo: boolean;
  readonly people: readonly { readonly id: PersonId; readonly role: Role }[];
}

/** Who is holding this device signs in; the partner can be named later, on the top line. */
export function ChoosePerson({ shelter, demo, people }: ChoosePersonProps) {
  const [person, setPerson] = useState<PersonId | null>(null);
  const [secret, setSecret] = useState('');
  const [failed, setFailed] = useState<string | null>(null);
  useNames();
  const begin = async (): Promise<void> => {
    if (person === null) return;
    setFailed(await signInHere(person, demo ? null : proofOf(secret), null));
  };
  const options = allKnown(people).map((one) => ({ id: one.id, label: one.name, note: say(`parts.role.${one.role}`) }));
  return (
    <section className="stack" style={{ maxWidth: 560 }}>
      <h2>{shelter}</h2>
      <ChooseOne label={say('desk.start.who')} options={options} value={person} onChange={setPerson} />
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      {demo ? (
        <p className="soft">{say('people.in.demo')}</p>
      ) : (
        <SecretField value={secret} onChange={setSecret} onEnter={() => void begin()} />
      )}
      <Act main size="big" disabled={person === null || (!demo && secret === '')} onAct={begin}>
        {say('desk.start.begin')}
      </Act>
      {demo ? null : <ByCode />}
    </section>
  );
}
