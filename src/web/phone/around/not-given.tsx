import { useState } from 'react';
import { dueAtOf } from '../../../log/bedside/order-of-line.js';
import { abandonTest, notGiven } from '../../../log/commands/round.js';
import { toldOfIllness } from '../../../log/flags/sick-flags.js';
import type { NotGivenReason } from '../../../log/kinds/treatment.js';
import { isLeft } from '../../../log/views/round/is-left.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { reasonOptions } from '../../parts/not-given-reasons.js';
import { Sheet } from '../../parts/sheet.js';
import { WillBeTold } from '../../parts/will-be-told.js';
import { useSave } from '../../store/save.js';
import { Trouble } from './bits.js';
import { lineNow, useRound } from './use-round.js';

/** Something due that is not done: a reason from the list, never silence. */
export function NotGivenSheet({ stop, line, onClose }: { stop: AnimalStop; line: RoundLine; onClose: () => void }) {
  const { round, shelter } = useRound();
  const [reason, setReason] = useState<NotGivenReason | null>(null);
  const { state, save } = useSave();
  const done = async (): Promise<void> => {
    if (reason === null) return;
    const current = lineNow(round, stop.animal.id, line.schedule);
    if (current === null || !isLeft(current)) return onClose();
    const at = now();
    // Blood that was drawn and not used ends its run, so that the clock list holds nothing that never ends.
    const run = current.run;
    const dueAt = dueAtOf(stop.animal, shelter, line.schedule, at);
    const drawn = current.state === 'running' && run !== null;
    const drafts = drawn
      ? abandonTest(stop.animal.id, { run: run.run, why: reason, round }, at)
      : notGiven(stop.animal.id, { schedule: line.schedule, reason, dueAt, round }, at);
    const saved = await save(drafts);
    if (saved !== null) onClose();
  };
  return (
    <Sheet title={say('round.not-given.title', { what: line.name })} open onClose={onClose}>
      <ChooseOne label={say('round.why')} options={reasonOptions()} value={reason} onChange={setReason} big />
      {reason === 'animal-ill' ? <WillBeTold roles={toldOfIllness} /> : null}
      <Trouble state={state} />
      <div className="act-pair">
        <Act main size="big" why={reason === null ? say('round.why.reason') : null} onAct={done}>
          {say('round.not-given.record')}
        </Act>
        <Act size="mid" onAct={onClose}>
          {say('round.back')}
        </Act>
      </div>
    </Sheet>
  );
}
