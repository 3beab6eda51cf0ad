import { takeFlag } from '../../../log/commands/shelter.js';
import type { Flag } from '../../../log/flag.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { RecordSheet } from '../../parts/record-sheet.js';
import { useWorld } from '../../store/here.js';
import { CountersignSheet } from '../orders/countersign-sheet.js';
import { AnswerSheet } from './answer-sheet.js';
import { FollowUpSheet } from './follow-up-sheet.js';

interface FlagSheetProps {
  readonly flag: Flag;
  readonly onClose: () => void;
}

/** Somebody takes a flag on. */
export function TakeFlag({ flag, onClose }: FlagSheetProps) {
  return (
    <RecordSheet
      title={say('desk.flags.take-title', { what: say(`flag-name.${flag.code}`) })}
      intent={takeFlag(flag.key, now())}
      action={say('desk.flags.take')}
      onClose={onClose}
    >
      <p>{say(flag.why)}</p>
      <p className="soft">{say('desk.flags.take-what')}</p>
    </RecordSheet>
  );
}

/** A reactive test is not closed by words: what follows it is asked for. */
export function AnswerFlag({ flag, onClose }: FlagSheetProps) {
  const { animals } = useWorld();
  const animal = flag.animal === null ? undefined : animals.get(flag.animal);
  const order = animal?.orders.find(({ record }) => record === flag.about);
  if (animal !== undefined && order !== undefined && flag.code === 'order-to-countersign')
    return <CountersignSheet animal={animal} order={order} onClose={onClose} />;
  return flag.followUp === undefined ? (
    <AnswerSheet flag={flag} onClose={onClose} />
  ) : (
    <FollowUpSheet flag={flag} onClose={onClose} />
  );
}
