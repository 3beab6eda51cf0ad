import { useState } from 'react';
import type { PersonId } from '../../core/ids.js';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { ChooseOne } from '../parts/fields/choices.js';
import { Sheet } from '../parts/sheet.js';
import { Notice } from '../parts/state.js';
import { ByCode } from '../sign-in/by-code.js';
import { SecretField } from '../sign-in/secret-field.js';
import { proofOf, signInHere, signOutHere } from '../sign-in/sign-in.js';
import { store, usePeople, useShelter, useStatus, useWho } from '../store/here.js';

/** Change who works, and with whom, without leaving what is on the screen. */
export function WhoSheet({ onClose }: { onClose: () => void }) {
  const people = usePeople();
  const who = useWho();
  const [person, setPerson] = useState(who.person);
  const [partner, setPartner] = useState<PersonId | 'alone'>(who.partner ?? 'alone');
  const active = people.filter((one) => one.active);
  const options = active.map((one) => ({ id: one.id, label: one.name, note: say(`parts.role.${one.role}`) }));
  const partners = [
    { id: 'alone' as const, label: say('parts.who.alone') },
    ...options.filter((option) => option.id !== person),
  ];
  const { demo } = useShelter();
  const [secret, setSecret] = useState('');
  const [failed, setFailed] = useState<string | null>(null);
  const { server } = useStatus();
  const changes = person !== who.person || server === 'wants-sign-in';
  const done = async (): Promise<void> => {
    if (person === null) return;
    const next = partner === 'alone' || partner === person ? null : partner;
    // Whoever takes the device over signs in; naming another partner takes nothing.
    const why = changes ? await signInHere(person, demo ? null : proofOf(secret), next) : null;
    if (why !== null) return setFailed(why);
    if (!changes) await store.chooseWho({ person, partner: next });
    onClose();
  };
  return (
    <Sheet title={say('parts.who.title')} open onClose={onClose}>
      <p className="soft">{say('parts.who.lead')}</p>
      <ChooseOne label={say('parts.who.person')} options={options} value={person} onChange={setPerson} />
      <ChooseOne<PersonId | 'alone'>
        label={say('parts.who.partner')}
        options={partners}
        value={partner}
        onChange={setPartner}
        flow
      />
      {changes && demo ? <p className="soft">{say('people.in.demo')}</p> : null}
      {changes && !demo ? <SecretField value={secret} onChange={setSecret} onEnter={() => void done()} /> : null}
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      <div className="row">
        <Act main size="mid" disabled={person === null || (changes && !demo && secret === '')} onAct={done}>
          {say('parts.who.take-over')}
        </Act>
        <Act onAct={onClose}>{say('parts.back')}</Act>
        {demo ? null : <Act onAct={signOutHere}>{say('people.in.out')}</Act>}
      </div>
      {demo ? null : <ByCode onIn={onClose} />}
    </Sheet>
  );
}
