import { useState } from 'react';
import type { Animal } from '../../../core/animal/animal.js';
import { lookAtWeight } from '../../../core/bedside/weighing.js';
import type { Seen } from '../../../core/point-of-care/result.js';
import type { Weight } from '../../../core/quantity/read-weight.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import type { NotGivenReason } from '../../../log/kinds/treatment.js';
import type { LogRecord } from '../../../log/record.js';
import { kitTypeNamed } from '../../../log/views/blood-tests/test-runs.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { WeightField, weightIn } from '../../parts/fields/weight-field.js';
import { reasonOptions } from '../../parts/not-given-reasons.js';
import { Notice } from '../../parts/state.js';
import { Zones } from '../../parts/zones.js';
import { usePerson } from '../../store/here.js';
import { useRound } from '../around/use-round.js';

interface WeightProps {
  readonly record: LogRecord<'animal-weighed'>;
  readonly animal: Animal;
  readonly onBody: (body: BodyInput<'animal-weighed'>) => Promise<void>;
}

export function CorrectWeight({ record, animal, onBody }: WeightProps) {
  const { shelter, today } = useRound();
  const person = usePerson();
  const [text, setText] = useState(record.body.entered);
  const [chosen, setChosen] = useState<Weight | null>(null);
  const weight = weightIn(text, shelter.weightUnit, chosen);
  // What stood behind the weighing stands behind it still; so does who puts it right.
  const proof = person?.role === 'medical' ? 'medical' : record.body.otherScale ? 'other-scale' : null;
  const look = weight === null ? null : lookAtWeight(animal, weight.grams, record.happenedAt, today, record.id, proof);
  return (
    <>
      <WeightField
        label={say('round.weigh.label')}
        unit={shelter.weightUnit}
        text={text}
        onText={setText}
        chosen={chosen}
        onChosen={setChosen}
      />
      {look?.doubtful ? <Notice tone="stop">{say(look.why)}</Notice> : null}
      <Act
        main
        size="big"
        why={weight === null ? say('round.why.weight') : null}
        onAct={async () => {
          if (weight === null) return;
          await onBody({
            ...record.body,
            grams: weight.grams,
            entered: weight.entered,
            doubtful: look?.doubtful ?? false,
          });
        }}
      >
        {say('round.correct.keep')}
      </Act>
    </>
  );
}

interface NotGivenProps {
  readonly record: LogRecord<'treatment-not-given'>;
  readonly onBody: (body: BodyInput<'treatment-not-given'>) => Promise<void>;
}

export function CorrectNotGiven({ record, onBody }: NotGivenProps) {
  const [reason, setReason] = useState<NotGivenReason>(record.body.reason);
  return (
    <>
      <ChooseOne
        label={say('round.why')}
        options={reasonOptions(record.body.reason)}
        value={reason}
        onChange={setReason}
        big
      />
      <Act main size="big" onAct={() => onBody({ ...record.body, reason })}>
        {say('round.correct.keep')}
      </Act>
    </>
  );
}

interface ReadingProps {
  readonly record: LogRecord<'test-read'>;
  readonly animal: Animal;
  readonly onBody: (body: BodyInput<'test-read'>) => Promise<void>;
}

/** Only what was seen can be corrected; when it was read stays as it was. */
export function CorrectReading({ record, animal, onBody }: ReadingProps) {
  const { shelter } = useRound();
  const [seen, setSeen] = useState<Seen>(record.body.seen);
  const run = animal.runs.find((one) => one.run === record.body.run);
  const kit = kitTypeNamed(shelter, run?.kitType ?? null);
  if (kit === null) return null;
  return (
    <>
      <Zones kit={kit} seen={seen} onSeen={setSeen} />
      <Act main size="big" onAct={() => onBody({ ...record.body, seen: { ...seen } })}>
        {say('round.correct.keep')}
      </Act>
    </>
  );
}
