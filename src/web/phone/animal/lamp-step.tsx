import { useState } from 'react';
import { type LampAnswer, lampCode } from '../../../core/animal/lamp.js';
import { noteObservation } from '../../../log/commands/animal.js';
import { isLeft } from '../../../log/views/round/is-left.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { nameOf } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { useSave } from '../../store/save.js';
import { Acts, Pair, Trouble } from '../around/bits.js';
import { NotGivenSheet } from '../around/not-given.js';
import { lineNow, useRound } from '../around/use-round.js';

/** The ringworm lamp asks what it showed: that somebody looked says nothing. */
export function LampStep({ stop, line }: { stop: AnimalStop; line: RoundLine }) {
  const { animal } = stop;
  const { round, today } = useRound();
  const [leaving, setLeaving] = useState(false);
  const { state, save } = useSave();
  const record = async (answer: LampAnswer): Promise<void> => {
    const current = lineNow(round, animal.id, line.schedule);
    if (current === null || !isLeft(current)) return;
    await save(noteObservation(animal.id, { code: lampCode, state: 'present', answer, on: today, round }, now()));
  };
  const answerOf = (answer: LampAnswer) => (
    <Act size="mid" onAct={() => record(answer)}>
      {say(`round.lamp.${answer}`)}
    </Act>
  );
  return (
    <>
      <div className="round-body">
        <section className="step-card">
          <h2>{line.name}</h2>
          <p>{say('round.lamp.how')}</p>
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        <Pair>
          {answerOf('no-glow')}
          {answerOf('glow')}
        </Pair>
        <Pair>
          {answerOf('unsure')}
          <Act size="mid" onAct={() => setLeaving(true)}>
            {say('round.look.not-done')}
          </Act>
        </Pair>
      </Acts>
      {leaving ? <NotGivenSheet stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
    </>
  );
}

/** What follows a glow, or an answer nobody was sure of. */
export function LampToDo({ stop: { animal, lines } }: { stop: AnimalStop }) {
  const answer = lines.map((line) => line.answer).find((one) => one === 'glow' || one === 'unsure');
  if (answer === undefined) return null;
  const name = nameOf(animal);
  return (
    <section className="step-card">
      <h2>{say('round.lamp.after-title')}</h2>
      <p>{say(`round.lamp.after-${answer}`, { animal: name })}</p>
      <ol>
        <li>{say('round.lamp.gloves')}</li>
        <li>{say('round.lamp.wipe')}</li>
        <li>{say('round.lamp.sign', { animal: name })}</li>
      </ol>
    </section>
  );
}
