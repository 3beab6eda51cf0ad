import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Sheet } from '../../parts/sheet.js';

interface StillProps {
  readonly person: string;
  readonly partner: string | null;
  readonly onDone: () => void;
  readonly onChange: () => void;
}

/** Whether it is still the same people who hold this phone. */
export function StillSheet({ person, partner, onDone, onChange }: StillProps) {
  return (
    <Sheet title={say('round.still.title')} open firm onClose={onDone}>
      <p>{partner === null ? say('round.still.one', { person }) : say('round.still.two', { person, partner })}</p>
      <div className="act-pair">
        <Act main size="big" onAct={onDone}>
          {say('round.still.yes')}
        </Act>
        <Act
          size="mid"
          onAct={() => {
            onDone();
            onChange();
          }}
        >
          {say('round.team.change')}
        </Act>
      </div>
    </Sheet>
  );
}
