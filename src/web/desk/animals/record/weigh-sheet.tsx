import { useState } from 'react';
import { lookAtWeight } from '../../../../core/bedside/weighing.js';
import type { Weight } from '../../../../core/quantity/read-weight.js';
import { weighAnimal } from '../../../../log/commands/animal.js';
import { nameOf } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { OtherScale, otherScale, useOtherScale } from '../../../parts/fields/other-scale.js';
import { WeightField, weightIn } from '../../../parts/fields/weight-field.js';
import { WhenField } from '../../../parts/fields/when-field.js';
import { type Intent, RecordFoot } from '../../../parts/record-sheet.js';
import { Sheet } from '../../../parts/sheet.js';
import { Notice } from '../../../parts/state.js';
import { WeightTold } from '../../../parts/weight-told.js';
import { rightNow, useShelter } from '../../../store/here.js';
import type { DoProps } from './doing.js';

/** A weighing. One that does not fit is kept as doubtful, and a second weighing is asked for: an OK is not enough. */
export function WeighSheet({ animal, onClose }: DoProps) {
  const shelter = useShelter();
  const today = useToday(shelter.zone);
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<Weight | null>(null);
  const [opened] = useState(now);
  const [at, setAt] = useState<string | null>(opened);
  const [again, setAgain] = useState(false);
  const { other, setOther, proof } = useOtherScale();
  const weight = weightIn(text, shelter.weightUnit, chosen);
  const when = at === opened ? now() : at;
  const against = at === opened ? rightNow() : at;
  const look =
    weight === null || against === null ? null : lookAtWeight(animal, weight.grams, against, today, null, proof);
  const intent = (): Intent => {
    if (weight === null) return { missing: say('desk.correct.needs-weight') };
    if (when === null) return { missing: say('parts.time-wrong') };
    return weighAnimal(
      animal.id,
      { grams: weight.grams, entered: text.trim(), doubtful: look?.doubtful ?? false, ...otherScale(other) },
      when,
    );
  };
  const saved = (): void => {
    if (look?.doubtful) {
      setText('');
      setChosen(null);
      setOther(false);
      setAgain(true);
    } else onClose();
  };
  return (
    <Sheet title={say('desk.do-title.weigh', { name: nameOf(animal) })} open onClose={onClose}>
      {again ? (
        <Notice tone="attention" live="status">
          {say('desk.weigh.again')}
        </Notice>
      ) : null}
      <WeightField
        key={again ? 'again' : 'first'}
        label={say('desk.animal.weight')}
        unit={shelter.weightUnit}
        text={text}
        onText={setText}
        chosen={chosen}
        onChosen={setChosen}
        autoFocus
      />
      {look?.doubtful ? (
        <Notice tone="attention" live="status">
          {say(look.why)} {look.beyond ? null : say('desk.weigh.doubt')}
        </Notice>
      ) : null}
      <OtherScale look={look} is={other} onChange={setOther} />
      <WeightTold
        animal={animal}
        grams={look?.doubtful === false ? (weight?.grams ?? null) : null}
        at={against ?? opened}
        on={today}
      />
      <WhenField label={say('desk.correct.when')} start={opened} onChange={setAt} />
      <RecordFoot intent={intent()} action={say('desk.do.weigh')} onBack={onClose} onSaved={saved} />
    </Sheet>
  );
}
