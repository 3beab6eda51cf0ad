import { useState } from 'react';
import type { RoundRecord } from '../../../log/bedside/on-record.js';
import { correct } from '../../../log/commands/animal.js';
import { withdrawRecord } from '../../../log/commands/shelter.js';
import type { Draft } from '../../../log/record.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Sheet } from '../../parts/sheet.js';
import { useSave } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { CorrectGiven } from './correct-given.js';
import { CorrectNotGiven, CorrectReading, CorrectWeight } from './correct-others.js';
import { inOneLine } from './in-one-line.js';

const reasons = ['wrong-tap', 'wrong-animal', 'did-not-happen', 'other'] as const;

interface CorrectProps {
  readonly record: RoundRecord;
  readonly stop: AnimalStop;
  readonly onClose: () => void;
}

/**
 * Undo by a new record: change what was written, or say that it did not happen. The old record stays, with the reason.
 */
export function CorrectSheet({ record, stop, onClose }: CorrectProps) {
  const { world } = useRound();
  const [withdrawing, setWithdrawing] = useState(false);
  const { state, save } = useSave();
  const keep = async (drafts: Draft[]): Promise<void> => {
    const saved = await save(drafts);
    if (saved !== null) onClose();
  };
  const change = changeOf(record, stop, keep);
  return (
    <Sheet title={say('round.correct.title')} open onClose={onClose}>
      <p>{say('round.recorded.at', { at: { instant: record.happenedAt }, what: inOneLine(record, world) })}</p>
      {withdrawing ? (
        <Withdraw
          onWithdraw={async (why) => {
            const drafts = withdrawRecord(record, why, now());
            const saved = await save(drafts);
            if (saved !== null) onClose();
          }}
        />
      ) : (
        <>
          {change}
          <Act stop size="mid" onAct={() => setWithdrawing(true)}>
            {say('round.correct.did-not-count')}
          </Act>
        </>
      )}
      <Trouble state={state} />
      <Act size="mid" onAct={onClose}>
        {say('round.correct.leave')}
      </Act>
    </Sheet>
  );
}

function changeOf(record: RoundRecord, stop: AnimalStop, keep: (drafts: Draft[]) => Promise<void>) {
  switch (record.kind) {
    case 'treatment-given':
      return <CorrectGiven record={record} onBody={(body) => keep(correct(record, 'treatment-given', body))} />;
    case 'animal-weighed':
      return (
        <CorrectWeight
          record={record}
          animal={stop.animal}
          onBody={(body) => keep(correct(record, 'animal-weighed', body))}
        />
      );
    case 'treatment-not-given':
      return <CorrectNotGiven record={record} onBody={(body) => keep(correct(record, 'treatment-not-given', body))} />;
    case 'test-read':
      return (
        <CorrectReading
          record={record}
          animal={stop.animal}
          onBody={(body) => keep(correct(record, 'test-read', body))}
        />
      );
    default:
      return null;
  }
}

function Withdraw({ onWithdraw }: { onWithdraw: (why: (typeof reasons)[number]) => Promise<void> }) {
  const [reason, setReason] = useState<(typeof reasons)[number] | null>(null);
  return (
    <>
      <ChooseOne
        label={say('round.why')}
        options={reasons.map((id) => ({ id, label: say(`round.correct.reason.${id}`) }))}
        value={reason}
        onChange={setReason}
        big
      />
      <Act
        stop
        size="big"
        why={reason === null ? say('round.why.reason') : null}
        onAct={async () => {
          if (reason !== null) await onWithdraw(reason);
        }}
      >
        {say('round.correct.withdraw')}
      </Act>
    </>
  );
}
