import { useState } from 'react';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { Field } from '../parts/fields/field.js';
import { Part } from '../parts/page.js';
import { Notice } from '../parts/state.js';
import { SecretField } from './secret-field.js';
import { isPin, signInByCode } from './sign-in.js';

/** Somebody was given a code: they choose their own password or PIN by it, and are signed in. */
export function ByCode({ onIn }: { onIn?: () => Promise<void> | void }) {
  const [code, setCode] = useState('');
  const [secret, setSecret] = useState('');
  const [failed, setFailed] = useState<string | null>(null);
  const go = async (): Promise<void> => {
    const why = await signInByCode(code, secret);
    setFailed(why);
    if (why === null) await onIn?.();
  };
  return (
    <Part title={say('people.in.code-title')}>
      <p className="soft">{say('people.in.code-lead')}</p>
      <Field label={say('people.in.code')} value={code} onChange={setCode} maxLength={40} />
      <SecretField
        label={say('people.in.new-secret')}
        hint={say(isPin(secret) ? 'people.in.taken-as-pin' : 'people.in.taken-as-password')}
        value={secret}
        onChange={setSecret}
      />
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      <div>
        <Act size="mid" disabled={code === '' || secret === ''} onAct={go}>
          {say('people.in.code-go')}
        </Act>
      </div>
    </Part>
  );
}
