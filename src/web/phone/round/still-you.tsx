import { useEffect, useRef, useState } from 'react';
import { say } from '../../../words/say.js';
import { nowMs } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { Sheet } from '../../parts/sheet.js';
import { usePartner, usePerson } from '../../store/here.js';
import { useRound } from '../around/use-round.js';

/** A phone laid down for so long may have changed hands; ours. */
const idle_ms = 10 * 60_000;

/**
 * After a pause the phone asks whose hands it is in, before the next record goes under somebody's name. Hidden, while a
 * stop stands, the question waits.
 */
export function StillYou({ hidden, onChange }: { hidden: boolean; onChange: () => void }) {
  const { now_ms, view } = useRound();
  const person = usePerson();
  const partner = usePartner();
  const touched = useRef(nowMs());
  const [asked, setAsked] = useState(false);
  useEffect(() => {
    const touch = (): void => {
      touched.current = nowMs();
    };
    window.addEventListener('pointerdown', touch, true);
    window.addEventListener('keydown', touch, true);
    return () => {
      window.removeEventListener('pointerdown', touch, true);
      window.removeEventListener('keydown', touch, true);
    };
  }, []);
  useEffect(() => {
    if (now_ms - touched.current >= idle_ms) setAsked(true);
  }, [now_ms]);
  if (!asked || hidden || view.state !== 'running' || person === null) return null;
  const done = (): void => setAsked(false);
  return (
    <Sheet title={say('round.still.title')} open firm onClose={done}>
      <p>
        {partner === null
          ? say('round.still.one', { person: person.name })
          : say('round.still.two', { person: person.name, partner: partner.name })}
      </p>
      <div className="act-pair">
        <Act main size="big" onAct={done}>
          {say('round.still.yes')}
        </Act>
        <Act
          size="mid"
          onAct={() => {
            done();
            onChange();
          }}
        >
          {say('round.team.change')}
        </Act>
      </div>
    </Sheet>
  );
}
