import { useState } from 'react';
import type { Animal } from '../../../core/animal/animal.js';
import { awaitingSecond, lastBelieved, lookAtWeight } from '../../../core/bedside/weighing.js';
import { coarseScale, type Weight } from '../../../core/quantity/read-weight.js';
import { grams, weightUnits } from '../../../core/quantity/units.js';
import { writeWeight } from '../../../core/quantity/write.js';
import { weighAnimal } from '../../../log/commands/animal.js';
import { weighGroups } from '../../../log/views/round/weigh-groups.js';
import { marksLine, nameOf } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { OtherScale, otherScale, useOtherScale } from '../../parts/fields/other-scale.js';
import { weightIn } from '../../parts/fields/weight-field.js';
import { GoButton } from '../../parts/links.js';
import { Page } from '../../parts/page.js';
import { CatFace } from '../../parts/pictures/cat-face.js';
import { Sheet } from '../../parts/sheet.js';
import { Notice } from '../../parts/state.js';
import { rightNow, useWorld } from '../../store/here.js';
import { useSave } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { groupName } from './group-name.js';
import { KeyPad } from './key-pad.js';
import { Readings, readingOf } from './reading.js';
import { type Scale, useScale } from './scale.js';
import { SmallCurve } from './small-curve.js';
import './weigh.css';
import { WeightTold } from '../../parts/weight-told.js';

/** A whole litter on the scale, one after the other, with one thumb; the next animal comes by itself. */
export function WeighLitter({ params }: { params: { group: string } }) {
  const world = useWorld();
  const [began] = useState(rightNow);
  const [at, setAt] = useState<string | null>(null);
  const [scale, setScale] = useScale(world.shelter.weightUnit);
  const [setting, setSetting] = useState(false);
  const group = weighGroups(world).find((one) => one.key === decodeURIComponent(params.group));
  if (group === undefined) return <Page title={say('drawup.weigh.gone')}>{null}</Page>;
  const done = (animal: Animal): boolean => {
    const last = animal.weighings.at(-1);
    return last !== undefined && last.at >= began && !last.doubtful;
  };
  const open = group.animals.filter((animal) => !done(animal));
  const animal = group.animals.find((one) => one.id === at) ?? open[0] ?? null;
  return (
    <Page
      title={groupName(group)}
      beside={say('drawup.weigh.done-of', { done: group.animals.length - open.length, all: group.animals.length })}
    >
      <fieldset className="weigh-strip bare" aria-label={say('drawup.weigh.litter')}>
        {group.animals.map((one) => (
          <Act key={one.id} size="small" main={one.id === animal?.id} onAct={() => setAt(one.id)}>
            {`${done(one) ? '✓ ' : ''}${nameOf(one)}`}
          </Act>
        ))}
        <GoButton to="/weigh">{say('drawup.weigh.others')}</GoButton>
      </fieldset>
      {animal === null ? (
        <Notice tone="done" live="status">
          {say('drawup.weigh.all-done')}
        </Notice>
      ) : (
        <OnScale
          key={`${animal.id} ${animal.weighings.length}`}
          animal={animal}
          scale={scale}
          onScale={setScale}
          onSetting={() => setSetting(true)}
          onNext={(kept) => {
            const rest = open.filter((one) => one.id !== kept.id);
            const after = rest.find((one) => group.animals.indexOf(one) > group.animals.indexOf(kept));
            setAt((after ?? rest[0])?.id ?? null);
          }}
        />
      )}
      {setting ? <ScaleSheet scale={scale} onScale={setScale} onClose={() => setSetting(false)} /> : null}
    </Page>
  );
}

interface OnScaleProps {
  readonly animal: Animal;
  readonly scale: Scale;
  readonly onScale: (scale: Partial<Scale>) => void;
  readonly onSetting: () => void;
  /** Told when the weight is on the record and nobody doubts it. */
  readonly onNext: (animal: Animal) => void;
}

function OnScale({ animal, scale, onScale, onSetting, onNext }: OnScaleProps) {
  const { shelter } = useWorld();
  const today = useToday(shelter.zone);
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<Weight | null>(null);
  const { state, save } = useSave();
  const { other, setOther, proof } = useOtherScale();
  const at = rightNow();
  const gross = weightIn(text, scale.unit, chosen);
  const net = gross === null ? null : gross.grams - scale.tare_g;
  const look = net === null || net <= 0 ? null : lookAtWeight(animal, net, at, today, null, proof);
  const coarse =
    gross === null || net === null || net <= 0 ? null : coarseScale({ step_g: gross.step_g, grams: grams(net) });
  const first = awaitingSecond(animal, at);
  const last = lastBelieved(animal);
  const keep = async (): Promise<void> => {
    if (gross === null || net === null || net <= 0) return;
    const instant = now();
    const { doubtful } = lookAtWeight(animal, net, rightNow(), today, null, proof);
    const body = {
      grams: net,
      tare_g: scale.tare_g,
      entered: gross.entered.slice(0, 60),
      doubtful,
      ...otherScale(other),
    };
    const saved = await save(weighAnimal(animal.id, body, instant));
    if (saved === null) return;
    if (!doubtful) onNext(animal);
  };
  return (
    <div className="on-scale">
      <div className="row">
        <CatFace name={nameOf(animal)} collar={animal.marks.collar} photo={animal.marks.photo} size={52} />
        <div>
          <h2>{nameOf(animal)}</h2>
          <p className="small">{marksLine(animal)}</p>
          <p className="small soft">
            {last === null
              ? say('round.weigh.no-last')
              : say('round.weigh.last', { weight: { grams: last.grams }, on: { instant: last.at } })}
          </p>
        </div>
      </div>
      {first === null ? null : (
        <Notice tone="attention" live="status">
          {say('drawup.weigh.again', { weight: { grams: first.grams } })}
        </Notice>
      )}
      <div className="thumb">
        <div className="scale-shows">
          <output className="figure" aria-live="polite">
            {text === '' ? '–' : text}
            <span className="unit">{`\u00a0${scale.unit}`}</span>
          </output>
          <SmallCurve weighings={animal.weighings} now_g={net} now={at} />
        </div>
        <div className="scale-says">
          <Readings text={text} unit={scale.unit} chosen={chosen} onChosen={setChosen} />
          {net === null || scale.tare_g === 0 ? null : (
            <p>{say('drawup.weigh.net', { tare: { grams: scale.tare_g }, net: writeWeight(Math.max(0, net)) })}</p>
          )}
          {net !== null && net <= 0 ? <Notice tone="stop">{say('drawup.weigh.under-tare')}</Notice> : null}
          {look?.doubtful ? (
            <Notice tone="stop" live="alert">
              {say(look.why)} {look.beyond ? null : say('round.weigh.doubtful')}
            </Notice>
          ) : null}
          <OtherScale look={look} is={other} onChange={setOther} />
          <WeightTold animal={animal} grams={look?.doubtful === false ? net : null} at={at} on={today} />
          {look?.confirms ? <Notice tone="done">{say('round.weigh.confirmed')}</Notice> : null}
          {coarse === null ? null : <Notice tone="attention">{say(coarse)}</Notice>}
          <Trouble state={state} />
        </div>
        <KeyPad
          text={text}
          decimals={scale.unit !== 'g'}
          onText={(next) => {
            setChosen(null);
            setText(next);
          }}
        />
        <BigButton disabled={net === null || net <= 0} onAct={keep}>
          {say(look?.doubtful ? 'round.weigh.keep-and-again' : 'drawup.weigh.keep')}
        </BigButton>
        <div className="act-two">
          <Act
            size="mid"
            disabled={gross === null && scale.tare_g === 0}
            onAct={() => {
              onScale({ tare_g: scale.tare_g === 0 ? (readingOf(text, scale.unit, chosen)?.grams ?? 0) : 0 });
              setText('');
              setChosen(null);
            }}
          >
            {scale.tare_g === 0
              ? say('drawup.weigh.tare')
              : say('drawup.weigh.tare-off', { tare: { grams: scale.tare_g } })}
          </Act>
          <Act size="mid" onAct={() => onNext(animal)}>
            {say('drawup.weigh.skip')}
          </Act>
        </div>
        <Act size="quiet" onAct={onSetting}>
          {say('drawup.weigh.unit', { unit: say(`drawup.weigh.unit.${scale.unit}`) })}
        </Act>
      </div>
    </div>
  );
}

interface ScaleSheetProps {
  readonly scale: Scale;
  readonly onScale: (scale: Partial<Scale>) => void;
  readonly onClose: () => void;
}

function ScaleSheet({ scale, onScale, onClose }: ScaleSheetProps) {
  return (
    <Sheet title={say('drawup.weigh.scale')} open onClose={onClose}>
      <p>{say('drawup.weigh.scale-why')}</p>
      <ChooseOne
        label={say('drawup.weigh.scale-shows')}
        options={weightUnits.map((unit) => ({ id: unit, label: say(`drawup.weigh.unit.${unit}`) }))}
        value={scale.unit}
        onChange={(unit) => {
          onScale({ unit, tare_g: 0 });
          onClose();
        }}
        big
      />
    </Sheet>
  );
}
