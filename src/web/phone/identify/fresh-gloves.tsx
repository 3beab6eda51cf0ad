import { useState } from 'react';
import { useLocation } from 'wouter';
import { type Said, said } from '../../../core/said.js';
import { changeGloves } from '../../../log/commands/round.js';
import type { GlovesWanted } from '../../../log/views/round/gloves.js';
import type { AnimalStop, SectionStop } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { signal, unlockSound } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { sectionPath } from '../../parts/round-paths.js';
import { useScan } from '../../scan/use-scan.js';
import { useSave } from '../../store/save.js';
import { AnimalHead } from '../around/animal-head.js';
import { Acts, Place, Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { BadScan } from './scan-answer.js';

interface FreshGlovesProps {
  readonly stop: AnimalStop;
  readonly at: SectionStop;
  readonly wanted: GlovesWanted;
}

/** Between two litters, and after a reactive animal: fresh gloves with one touch, before any hand is on the next one. */
export function FreshGloves({ stop, at, wanted }: FreshGlovesProps) {
  const { animal } = stop;
  const { round, view } = useRound();
  const [early, setEarly] = useState<Said | null>(null);
  const [, go] = useLocation();
  const { state, save } = useSave();
  useScan(() => {
    signal('stop');
    setEarly(said('round.gloves.scan-later', names));
  });
  const names = {
    animal: animal.name || animal.label,
    from: wanted.from === null ? '' : wanted.from.name || wanted.from.label,
  };
  const on = async (): Promise<void> => {
    void unlockSound();
    const { visit, why, after } = wanted;
    await save(changeGloves(round, { visit, why, before: animal.id, after: [...after] }, now()));
  };
  return (
    <>
      <BadScan why={early} />
      <Place at={at} link={sectionPath(round, at.section.id)} />
      <div className="round-body">
        <AnimalHead animal={animal} />
        <section className="step-card">
          <h2>
            <span aria-hidden="true">△ </span>
            {say('round.gloves.title')}
          </h2>
          <p className="kit-step">{say(`round.gloves.why.${wanted.why}`, names)}</p>
          <p className="how">{say(view.facts.holder === null ? 'round.gloves.how-one' : 'round.gloves.how-both')}</p>
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        <BigButton onAct={on}>{say('round.gloves.on')}</BigButton>
        <Act size="mid" onAct={() => go(sectionPath(round, at.section.id))}>
          {say('round.to-section', { section: at.section.name })}
        </Act>
      </Acts>
    </>
  );
}
