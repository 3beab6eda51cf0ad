import { useEffect, useRef, useState } from 'react';
import type { Answer } from '../../api/client.js';
import type { SignedIn } from '../../api/wire-sign-in.js';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { Field } from '../parts/fields/field.js';
import { Part } from '../parts/page.js';
import { Notice } from '../parts/state.js';
import { store, useStatus } from '../store/here.js';
import { signing } from './asks.js';
import { ByCode } from './by-code.js';
import { SecretField } from './secret-field.js';

/** In the address after #, which no browser sends anywhere: the code that enrols this device. */
const codeInAddress = (): string | null => /^#enrol=([A-Z0-9]+)$/.exec(location.hash)?.[1] ?? null;

interface GetInProps {
  /** Nobody can sign in yet: the first administrator does, by the code on the console. */
  readonly first: boolean;
  /** Somebody has signed in, or this device was enrolled: what can be seen is asked anew. */
  readonly onIn: () => Promise<void>;
}

/** For a device that the shelter does not know: by name and password, by a code, or enrolled. */
export function GetIn({ first, onIn }: GetInProps) {
  const { device } = useStatus();
  const [failed, setFailed] = useState<string | null>(null);
  const [told, setTold] = useState<string | null>(null);

  const enter = async (asked: Promise<Answer<SignedIn>>): Promise<void> => {
    const answer = await asked;
    if (!answer.ok) {
      setFailed(answer.problem?.detail ?? say('desk.start.no-answer'));
      return;
    }
    await store.chooseWho({ person: answer.value.person, partner: null });
    await onIn();
  };
  const enrol = async (code: string): Promise<void> => {
    if (device === null) return;
    const answer = await signing.enrol({ code, device });
    if (!answer.ok) {
      setFailed(answer.problem?.detail ?? say('desk.start.no-answer'));
      return;
    }
    setTold(say('people.in.enrolled', { name: answer.value.name }));
    await onIn();
  };
  const tried = useRef(false);
  useEffect(() => {
    const code = codeInAddress();
    if (code === null || device === null || tried.current) return;
    tried.current = true;
    // The code works once: it stays in no list of pages.
    history.replaceState(null, '', location.pathname);
    void enrol(code);
  });

  if (device === null) return null;
  return (
    <div className="stack loose" style={{ maxWidth: 560 }}>
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      {told === null ? null : <Notice tone="done">{told}</Notice>}
      {first ? (
        <First onGo={(asked) => enter(signing.firstAdministrator({ ...asked, device }))} />
      ) : (
        <ByName onGo={(name, secret) => enter(signing.signIn({ name, kind: 'password', secret, device }))} />
      )}
      {first ? null : (
        <>
          <ByCode onIn={onIn} />
          <Enrol onGo={enrol} />
        </>
      )}
    </div>
  );
}

function ByName({ onGo }: { onGo: (name: string, secret: string) => Promise<void> }) {
  const [name, setName] = useState('');
  const [secret, setSecret] = useState('');
  const go = (): Promise<void> => onGo(name, secret);
  return (
    <Part title={say('people.in.title')}>
      <Field label={say('people.in.name')} value={name} onChange={setName} maxLength={120} autoFocus />
      <SecretField label={say('people.in.password')} value={secret} onChange={setSecret} onEnter={() => void go()} />
      <div>
        <Act main size="mid" disabled={name.trim() === '' || secret === ''} onAct={go}>
          {say('people.in.go')}
        </Act>
      </div>
    </Part>
  );
}

function Enrol({ onGo }: { onGo: (code: string) => Promise<void> }) {
  const [code, setCode] = useState('');
  return (
    <Part title={say('people.in.enrol-title')}>
      <p className="soft">{say('people.in.enrol-lead')}</p>
      <Field label={say('people.in.device-code')} value={code} onChange={setCode} maxLength={40} />
      <div>
        <Act size="mid" disabled={code === ''} onAct={() => onGo(code)}>
          {say('people.in.enrol-go')}
        </Act>
      </div>
    </Part>
  );
}

interface FirstAsked {
  readonly code: string;
  readonly name: string;
  readonly secret: string;
}

function First({ onGo }: { onGo: (asked: FirstAsked) => Promise<void> }) {
  const [code, setCode] = useState('');
  const [name, setName] = useState('');
  const [secret, setSecret] = useState('');
  return (
    <Part title={say('people.in.first-title')}>
      <p className="soft">{say('people.in.first-lead')}</p>
      <Field label={say('people.in.first-code')} value={code} onChange={setCode} maxLength={40} autoFocus />
      <Field label={say('desk.start.you')} value={name} onChange={setName} maxLength={120} />
      <SecretField
        label={say('people.in.new-password')}
        hint={say('people.in.password-hint')}
        value={secret}
        onChange={setSecret}
      />
      <div>
        <Act
          main
          size="mid"
          disabled={code === '' || name.trim() === '' || secret === ''}
          onAct={() => onGo({ code, name, secret })}
        >
          {say('people.in.first-go')}
        </Act>
      </div>
    </Part>
  );
}
