import { useState } from 'react';
import type { PersonId } from '../../../core/ids.js';
import { changeTeam } from '../../../log/commands/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Sheet } from '../../parts/sheet.js';
import { Notice } from '../../parts/state.js';
import { SecretField } from '../../sign-in/secret-field.js';
import { proofOf, signInHere } from '../../sign-in/sign-in.js';
import { store, usePeople, usePerson, useShelter } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';

/** Change of treater or holder in the middle of a round: the round knows it, and so does this device. */
export function TeamSheet({ onClose }: { onClose: () => void }) {
  const { view, round } = useRound();
  const person = usePerson();
  const { facts } = view;
  const [treater, setTreater] = useState<PersonId>(person?.id ?? facts.treater);
  // Where the holder has taken the phone, the two have changed places; nobody has gone.
  const [holder, setHolder] = useState<PersonId | 'alone'>(
    (facts.holder === treater ? facts.treater : facts.holder) ?? 'alone',
  );
  const { state, save } = useSave();
  const people = usePeople().filter((one) => one.active && one.role !== 'caregiver');
  const option = (one: (typeof people)[number]) => ({
    id: one.id,
    label: one.name,
    note: say(`parts.role.${one.role}`),
  });
  const second = holder === 'alone' || holder === treater ? null : holder;
  const { demo } = useShelter();
  const [secret, setSecret] = useState('');
  const [failed, setFailed] = useState<string | null>(null);
  const changes = treater !== person?.id;
  const done = async (): Promise<void> => {
    // Whoever takes the device over signs in, and nothing of the round is lost by it.
    const why = changes ? await signInHere(treater, demo ? null : proofOf(secret), second) : null;
    if (why !== null) return setFailed(why);
    if (!changes) await store.chooseWho({ person: treater, partner: second });
    const same = treater === facts.treater && second === facts.holder;
    const kept = same || view.state === 'handed-back' || view.state === 'accepted';
    const saved = kept ? [] : await save(changeTeam(round, { treater, holder: second }, now()));
    if (saved !== null) onClose();
  };
  return (
    <Sheet title={say('round.team.title')} open onClose={onClose}>
      <ChooseOne
        label={say('round.team.treater')}
        options={people.map(option)}
        value={treater}
        onChange={setTreater}
        big
      />
      <ChooseOne<PersonId | 'alone'>
        label={say('round.team.holder')}
        options={[
          ...people.filter((one) => one.id !== treater).map(option),
          { id: 'alone', label: say('round.team.alone'), note: say('round.team.alone-note') },
        ]}
        value={holder === treater ? 'alone' : holder}
        onChange={setHolder}
        big
      />
      {changes && !demo ? <SecretField value={secret} onChange={setSecret} /> : null}
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      <Trouble state={state} />
      <div className="act-pair">
        <Act
          main
          size="big"
          why={
            changes && !demo && secret === '' ? say('people.in.needs-secret', { person: { person: treater } }) : null
          }
          onAct={done}
        >
          {say('round.team.take')}
        </Act>
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}
