import { useState } from 'react';
import { type OverrideReason, overrideWaits, reasonsWith } from '../../../core/bedside/override-rules.js';
import { correct } from '../../../log/commands/animal.js';
import { identify } from '../../../log/commands/round.js';
import { contradictions, meaningOfScan } from '../../../log/views/round/identity.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne, Tick } from '../../parts/fields/choices.js';
import { Sheet } from '../../parts/sheet.js';
import { useSave } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { answersOf } from './identity-scan.js';

/** Going on without chip or marks: one reason, two taps, and the desk sees it. */
export function OverrideSheet({ stop, onClose }: { stop: AnimalStop; onClose: () => void }) {
  const { round, world } = useRound();
  const against = contradictions(stop);
  const means = (code: string): string => meaningOfScan(stop.animal, code, world).is;
  /** A number on nobody's record, read on an animal without one, is a finding and proves nothing either way. */
  const toAnswer = against.filter(({ body }) => means(body.found?.code ?? '') !== 'unknown');
  const ids = toAnswer.map((scan) => scan.id);
  const [reason, setReason] = useState<OverrideReason | null>(null);
  const [answered, setAnswered] = useState<readonly string[]>([]);
  const { state, save } = useSave();
  const waits = overrideWaits(reason, ids, answered);
  const name = stop.animal.name || stop.animal.label;
  const done = async (): Promise<void> => {
    if (reason === null || waits !== null) return;
    const made = { round, by: 'override' as const, compared: [], reason, answers: answersOf(stop) };
    const saved = await save([
      ...toAnswer
        .filter(({ body }) => means(body.found?.code ?? '') !== 'not-this')
        .flatMap((scan) => correct(scan, 'chip-scanned', { ...scan.body, ofAnother: true })),
      ...identify(stop.animal.id, made, now()),
    ]);
    if (saved !== null) onClose();
  };
  return (
    <Sheet title={say('round.override.title', { animal: name })} open onClose={onClose}>
      <p>{say('round.override.what')}</p>
      {toAnswer.map(({ id, body }) => (
        <Tick
          key={id}
          label={say(
            means(body.found?.code ?? '') === 'not-this' ? 'round.override.not-on-record' : 'round.override.of-another',
            { code: chipText(body.found?.code ?? ''), animal: name },
          )}
          note={say('round.override.of-another-note')}
          value={answered.includes(id)}
          onChange={(on) => setAnswered(on ? [...answered, id] : answered.filter((one) => one !== id))}
        />
      ))}
      <ChooseOne
        label={say('round.why')}
        options={reasonsWith(against).map((id) => ({ id, label: say(`override.${id}`) }))}
        value={reason}
        onChange={setReason}
        big
      />
      <Trouble state={state} />
      <div className="act-pair">
        <Act main size="big" why={waits === null ? null : say(waits)} onAct={done}>
          {say('round.override.do', { animal: name })}
        </Act>
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}
