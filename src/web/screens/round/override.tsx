import { useState } from 'react';
import { identify } from '../../../log/commands/round.js';
import type { AnimalStop } from '../../../log/views/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/choices.js';
import { Sheet } from '../../parts/sheet.js';
import { useSave } from '../../store/save.js';
import { Trouble } from './bits.js';
import { answersOf } from './identity-scan.js';
import { useRound } from './use-round.js';

const reasons = [
  'chip-unreadable',
  'no-reader',
  'collar-lost',
  'marks-alike',
  'label-unreadable',
  'known-to-the-team',
  'other',
] as const;

/** Going on without chip or marks: one reason, two taps, and the desk sees it. */
export function OverrideSheet({ stop, onClose }: { stop: AnimalStop; onClose: () => void }) {
  const { round } = useRound();
  const [reason, setReason] = useState<(typeof reasons)[number] | null>(null);
  const { state, save } = useSave();
  const name = stop.animal.name || stop.animal.label;
  const done = async (): Promise<void> => {
    if (reason === null) return;
    const made = { round, by: 'override' as const, compared: [], reason, answers: answersOf(stop) };
    const saved = await save(identify(stop.animal.id, made, now()));
    if (saved !== null) onClose();
  };
  return (
    <Sheet title={say('round.override.title', { animal: name })} open onClose={onClose}>
      <p>{say('round.override.what')}</p>
      <ChooseOne
        label={say('round.why')}
        options={reasons.map((id) => ({ id, label: say(`override.${id}`) }))}
        value={reason}
        onChange={setReason}
        big
      />
      <Trouble state={state} />
      <div className="act-pair">
        <Act main size="big" why={reason === null ? say('round.why.reason') : null} onAct={done}>
          {say('round.override.do', { animal: name })}
        </Act>
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}
