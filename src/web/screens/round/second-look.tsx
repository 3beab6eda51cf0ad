import { useState } from 'react';
import type { Dose } from '../../../core/dosing/dose.js';
import { markText } from '../../../core/dosing/draw-up.js';
import type { Syringe } from '../../../core/dosing/formulary.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Notice, State } from '../../parts/state.js';
import { usePartner } from '../../store/here.js';
import { marksToChooseFrom } from './marks-to-choose.js';

interface SecondLookProps {
  readonly dose: Dose;
  readonly syringe: Syringe | null;
  readonly looked: boolean;
  readonly onLooked: (yes: boolean) => void;
}

/**
 * The second person reads the plunger without being told the answer: the right mark stands among its neighbours and a
 * tenfold slip, smallest first.
 */
export function SecondLook({ dose, syringe, looked, onLooked }: SecondLookProps) {
  const partner = usePartner();
  const [wrong, setWrong] = useState(false);
  const { drawn } = dose;
  if (looked)
    return (
      <State tone="done">{say('round.second.agrees', { person: partner?.name ?? say('round.second.somebody') })}</State>
    );
  if (drawn === null || syringe === null) {
    return (
      <section className="step-card">
        <h2>{say('round.second.title', { person: partner?.name ?? say('round.second.somebody') })}</h2>
        <Act size="mid" onAct={() => onLooked(true)}>
          {say('round.second.checked')}
        </Act>
      </section>
    );
  }
  return (
    <section className="step-card">
      <h2>{say('round.second.title', { person: partner?.name ?? say('round.second.somebody') })}</h2>
      <p className="how">{say('round.second.which-mark')}</p>
      <div className="act-two">
        {marksToChooseFrom(drawn.volume_ul, syringe).map((ul) => (
          <Act
            key={ul}
            size="mid"
            onAct={() => {
              setWrong(ul !== drawn.volume_ul);
              onLooked(ul === drawn.volume_ul);
            }}
          >
            {markText(ul, syringe.scale)}
          </Act>
        ))}
      </div>
      {wrong ? (
        <Notice tone="stop" live="alert">
          {say('round.second.differs')}
        </Notice>
      ) : null}
    </section>
  );
}
