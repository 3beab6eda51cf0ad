import { useState } from 'react';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Notice } from '../../parts/state.js';
import { signing } from '../../sign-in/asks.js';
import { SecretField } from '../../sign-in/secret-field.js';
import { sync } from '../../store/exchange.js';

/** Drafts of a veterinarian wait for the password: given once more, they go in. */
export function ConfirmSelf() {
  const [secret, setSecret] = useState('');
  const [failed, setFailed] = useState<string | null>(null);
  const go = async (): Promise<void> => {
    const answer = await signing.confirm({ secret });
    setSecret('');
    setFailed(answer.ok ? null : (answer.problem?.detail ?? say('people.device.out-of-reach')));
    if (answer.ok) await sync.once();
  };
  return (
    <div className="stack">
      <p>{say('people.care.drafts-wait')}</p>
      <SecretField label={say('people.in.password')} value={secret} onChange={setSecret} onEnter={() => void go()} />
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      <div>
        <Act main disabled={secret === ''} onAct={go}>
          {say('people.care.confirm')}
        </Act>
      </div>
    </div>
  );
}
