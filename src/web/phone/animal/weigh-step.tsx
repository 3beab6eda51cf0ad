import { useState } from 'react';
import { useLocation } from 'wouter';
import { awaitingSecond, lastBelieved, lookAtWeight } from '../../../core/bedside/weighing.js';
import { coarseScale, type Weight } from '../../../core/quantity/read-weight.js';
import { writeWeight } from '../../../core/quantity/write.js';
import { weighAnimal } from '../../../log/commands/animal.js';
import { glovesBefore } from '../../../log/views/round/gloves.js';
import { identityHolds } from '../../../log/views/round/identity.js';
import type { AnimalStop, RoundLine } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { OtherScale, otherScale, useOtherScale } from '../../parts/fields/other-scale.js';
import { WeightField, weightIn } from '../../parts/fields/weight-field.js';
import { Figure } from '../../parts/figure.js';
import { animalPath } from '../../parts/round-paths.js';
import { Notice, State } from '../../parts/state.js';
import { WeightTold } from '../../parts/weight-told.js';
import { useSave } from '../../store/save.js';
import { AnimalHead } from '../around/animal-head.js';
import { Acts, InSight, Pair, Place, Trouble } from '../around/bits.js';
import { NotGivenSheet } from '../around/not-given.js';
import { LeftHere, useDraft } from '../around/use-draft.js';
import { stopOf, useRound } from '../around/use-round.js';
import { FreshGloves } from '../identify/fresh-gloves.js';
import { Identify } from '../identify/identify.js';

interface WeighProps {
  readonly stop: AnimalStop;
  readonly line: RoundLine | null;
  /** The weight just taken was doubtful and waits for a second weighing. */
  readonly again: boolean;
  /** Go on without the second weighing; the desk sees the doubtful one. */
  readonly onSkip: () => void;
  /** Told once the weight is on the record. */
  readonly onKept?: (doubtful: boolean) => void;
}

/** A weight, said back; one that does not fit asks for a second weighing, and both are kept. */
export function WeighStep({ stop, line, again, onSkip, onKept }: WeighProps) {
  const { animal } = stop;
  const { round, shelter, now: at, today } = useRound();
  const draft = useDraft(`weight ${round} ${animal.id}`);
  const { text, setText } = draft;
  const [chosen, setChosen] = useState<Weight | null>(null);
  const [leaving, setLeaving] = useState(false);
  const { other, setOther, proof } = useOtherScale();
  const { state, save } = useSave();
  const weight = weightIn(text, shelter.weightUnit, chosen);
  const look = weight === null ? null : lookAtWeight(animal, weight.grams, at, today, null, proof);
  const coarse = weight === null ? null : coarseScale(weight);
  const first = again ? awaitingSecond(animal, at) : null;
  const last = lastBelieved(animal);
  const keep = async (): Promise<void> => {
    if (weight === null) return;
    const instant = now();
    const { doubtful } = lookAtWeight(animal, weight.grams, at, today, null, proof);
    const body = { grams: weight.grams, entered: weight.entered, doubtful, ...otherScale(other), round };
    const saved = await save(weighAnimal(animal.id, body, instant));
    if (saved === null) return;
    // The second weight may be in the field already: only what is on the record goes.
    setText((typed) => (typed === text ? '' : typed));
    setChosen((picked) => (picked === chosen ? null : picked));
    setOther(false);
    onKept?.(doubtful);
  };
  return (
    <>
      <div className="round-body">
        <section className="step-card">
          <h2>{say(again ? 'round.weigh.again' : 'round.weigh.title')}</h2>
          {first === null ? null : (
            <Notice tone="attention">{say('round.weigh.first-was', { weight: { grams: first.grams } })}</Notice>
          )}
          <p className="how">
            {line === null && !again ? `${say('round.weigh.why')} ` : ''}
            {last === null
              ? say('round.weigh.no-last')
              : say('round.weigh.last', { weight: { grams: last.grams }, on: { instant: last.at } })}
          </p>
          <LeftHere draft={draft} />
          <WeightField
            label={say('round.weigh.label')}
            unit={shelter.weightUnit}
            text={text}
            onText={setText}
            chosen={chosen}
            onChosen={setChosen}
            autoFocus
            onEnter={() => {
              if (weight !== null) void keep();
            }}
          />
          {weight === null ? null : <Figure text={writeWeight(weight.grams)} big />}
          {coarse === null ? null : <Notice tone="attention">{say(coarse)}</Notice>}
          {look?.doubtful ? (
            <Notice tone="stop" live="alert">
              {say(look.why)} {look.beyond ? null : say('round.weigh.doubtful')}
            </Notice>
          ) : null}
          <OtherScale look={look} is={other} onChange={setOther} />
          <WeightTold
            animal={animal}
            grams={look?.doubtful === false ? (weight?.grams ?? null) : null}
            at={at}
            on={today}
          />
          {look?.confirms ? <Notice tone="done">{say('round.weigh.confirmed')}</Notice> : null}
        </section>
      </div>
      <Acts>
        <Trouble state={state} />
        <InSight>
          {weight === null ? null : (
            <b className="amount">
              <Figure text={writeWeight(weight.grams)} />
            </b>
          )}
          {look?.doubtful ? <State tone="stop">{say('round.weigh.does-not-fit')}</State> : null}
          {last === null ? null : (
            <span className="part soft">{say('round.weigh.last-short', { weight: { grams: last.grams } })}</span>
          )}
        </InSight>
        <BigButton why={weight === null ? say('round.why.weight') : null} onAct={keep}>
          {say(look?.doubtful ? 'round.weigh.keep-and-again' : 'round.weigh.keep')}
        </BigButton>
        <Pair>
          {look?.doubtful ? (
            <Act size="mid" onAct={() => setText('')}>
              {say('round.weigh.typed-wrong')}
            </Act>
          ) : null}
          <Act size="mid" onAct={() => (again ? onSkip() : setLeaving(true))}>
            {say('round.weigh.cannot')}
          </Act>
        </Pair>
      </Acts>
      {leaving ? <CannotWeigh stop={stop} line={line} onClose={() => setLeaving(false)} /> : null}
    </>
  );
}

/** Without a weight nothing that goes by weight is given: the first such line asks for its reason. */
function CannotWeigh({ stop, line, onClose }: { stop: AnimalStop; line: RoundLine | null; onClose: () => void }) {
  const blocked = line ?? stop.lines.find((one) => one.state === 'open' && one.action === 'give') ?? null;
  return blocked === null ? null : <NotGivenSheet stop={stop} line={blocked} onClose={onClose} />;
}

/** Weighing asked for by a stop: a screen of its own, back to the animal once a weight stands. */
export function WeighNow({ animal }: { animal: string }) {
  const { view, round, world, now: at, hands } = useRound();
  const [, go] = useLocation();
  const found = stopOf(view, animal);
  if (found === null) return <p className="round-body">{say('round.animal.not-here')}</p>;
  const gloves = glovesBefore(world, view, found.at, found.stop.animal);
  if (gloves !== null) return <FreshGloves stop={found.stop} at={found.at} wanted={gloves} />;
  if (!identityHolds(view, found.stop.animal.id, hands)) return <Identify stop={found.stop} at={found.at} />;
  const back = (): void => go(animalPath(round, animal));
  return (
    <>
      <Place at={found.at} />
      <div className="round-body">
        <AnimalHead animal={found.stop.animal} identified={found.stop.identified} />
      </div>
      <WeighStep
        stop={found.stop}
        line={null}
        again={awaitingSecond(found.stop.animal, at) !== null}
        onSkip={back}
        onKept={(doubtful) => (doubtful ? undefined : back())}
      />
    </>
  );
}
