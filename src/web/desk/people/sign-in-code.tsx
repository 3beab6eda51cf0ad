import { useState } from 'react';
import type { KnownPerson } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Sheet } from '../../parts/sheet.js';
import { Notice } from '../../parts/state.js';
import { signing } from '../../sign-in/asks.js';

/** A code by which somebody sets their own password or PIN; it is shown once, to whoever asks for it. */
export function SignInCode({ person, onClose }: { person: KnownPerson; onClose: () => void }) {
  const [given, setGiven] = useState<{ readonly code: string; readonly until: string } | null>(null);
  const [told, setTold] = useState<string | null>(null);
  const fail = (answer: { readonly problem: { readonly detail: string } | null }): void =>
    setTold(answer.problem?.detail ?? say('people.device.out-of-reach'));
  const make = async (): Promise<void> => {
    const answer = await signing.giveCode({ person: person.id });
    if (answer.ok) setGiven(answer.value);
    else fail(answer);
  };
  const end = async (): Promise<void> => {
    const answer = await signing.endSignIns({ person: person.id });
    if (answer.ok) setTold(say('people.care.ended', { name: person.name }));
    else fail(answer);
  };
  const duty = async (administers: boolean): Promise<void> => {
    const answer = await signing.giveDuty({ person: person.id, administers });
    const key = administers ? 'people.care.is-administrator' : 'people.care.is-none';
    if (answer.ok) setTold(say(key, { name: person.name }));
    else fail(answer);
  };
  return (
    <Sheet title={say('people.care.title', { name: person.name })} open onClose={onClose}>
      {told === null ? null : (
        <Notice tone="attention" live="status">
          {told}
        </Notice>
      )}
      {given === null ? (
        <div className="stack">
          <p className="soft">{say('people.care.code-lead')}</p>
          <Act main size="mid" onAct={make}>
            {say('people.care.code')}
          </Act>
          <Act onAct={end}>{say('people.care.end')}</Act>
          <Act onAct={() => duty(true)}>{say('people.care.make-administrator')}</Act>
          <Act onAct={() => duty(false)}>{say('people.care.no-administrator')}</Act>
        </div>
      ) : (
        <>
          <p>{say('people.care.code-is', { name: person.name, until: { instant: given.until } })}</p>
          <p className="mono">{given.code}</p>
        </>
      )}
      <Act onAct={onClose}>{say('parts.back')}</Act>
    </Sheet>
  );
}
