import type { Animal } from '../../core/animal/animal.js';
import { setSign } from '../../log/commands/animal.js';
import { signIs } from '../../log/views/apart/sign.js';
import { placeSaid } from '../../told/names.js';
import { personName, say } from '../../words/say.js';
import { now } from '../clock.js';
import { useShelter } from '../store/here.js';
import { useSave } from '../store/save.js';
import { Act } from './act.js';
import { State } from './state.js';

interface SignStateProps {
  readonly animal: Animal;
  /** Whether something keeps it out of shared rooms. */
  readonly apart: boolean;
  readonly size?: 'small' | 'mid';
}

/** Whether the sign hangs on the kennel, and the one touch that says that it does now, or no longer. */
export function SignState({ animal, apart, size = 'small' }: SignStateProps) {
  const shelter = useShelter();
  const { state, save } = useSave();
  const is = signIs(animal, apart);
  if (is === 'none') return null;
  const { sign, section, kennel } = animal;
  const where = sign ?? animal;
  const values = {
    place: say(placeSaid(shelter, where.section, where.kennel)),
    at: { instant: sign?.at ?? now() },
    by: sign === null ? '' : personName(sign.by),
  };
  const record = async (): Promise<void> => {
    const down = is === 'to-come-down' && sign !== null;
    const place = down ? { section: sign.section, kennel: sign.kennel } : { section, kennel };
    await save(setSign(animal.id, { hangs: !down, ...place }, now()));
  };
  return (
    <span className="row">
      <State tone={is === 'hangs' ? 'done' : 'attention'}>{say(`sign-state.${is}`, values)}</State>
      {state.is === 'failed' ? <State tone="stop">{say(state.why)}</State> : null}
      {is === 'hangs' ? null : (
        <span className="no-print">
          <Act size={size} onAct={record}>
            {say(`sign-state.act.${is}`)}
          </Act>
        </span>
      )}
    </span>
  );
}
