import { useState } from 'react';
import { readVolume } from '../../../core/quantity/read-volume.js';
import { writeVolume } from '../../../core/quantity/write.js';
import {
  type GivenTyped,
  givenOtherwise,
  judgeOtherwise,
  saidAgain,
  typedOf,
} from '../../../log/bedside/given-otherwise.js';
import { lotChoices } from '../../../log/bedside/lot-choices.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import type { LogRecord } from '../../../log/record.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { Notice } from '../../parts/state.js';
import { usePerson } from '../../store/here.js';
import { BoxLine, boxesOfSyringe } from '../around/box-line.js';
import { LotLine } from '../around/lot-line.js';
import { useRound } from '../around/use-round.js';

interface CorrectGivenProps {
  readonly record: LogRecord<'treatment-given'>;
  readonly onBody: (body: BodyInput<'treatment-given'>) => Promise<void>;
}

const outcomes = ['taken', 'partly-taken', 'not-taken'] as const;

/** Another amount, another lot, or not all of it stayed in. The amount is held against the dose as it is at the card. */
export function CorrectGiven({ record, onBody }: CorrectGivenProps) {
  const { world, today } = useRound();
  const person = usePerson();
  const { body } = record;
  const byVolume = body.volume_ul !== null;
  const [typed, setTyped] = useState(() => typedOf(body));
  const type = (more: Partial<GivenTyped>): void => setTyped((before) => ({ ...before, ...more }));
  const syringe = world.shelter.formulary?.syringes.find((one) => one.id === body.syringe);
  const scale = syringe?.scale ?? null;
  const reading = byVolume && typed.amount.trim() !== '' ? readVolume(typed.amount, scale) : null;
  const boxes = lotChoices(world, boxesOfSyringe(body.syringe), today);
  const lots = lotChoices(world, (of) => of.is === 'product' && of.product === body.product, today);
  const now = givenOtherwise(body, typed, scale);
  const about = now === null ? [] : judgeOtherwise(body, now, world.shelter.formulary);
  const far = about.some(({ severity }) => severity === 'stop');
  return (
    <>
      <Field
        label={say(byVolume ? 'round.different.amount' : 'round.different.pieces')}
        value={typed.amount}
        onChange={(amount) => type({ amount })}
        figure
        wrong={reading === null || reading.is === 'volume' ? null : say(reading.why)}
      />
      {reading?.is === 'ask' ? (
        <div className="act-two">
          {reading.readings.map((ul) => (
            <Act key={ul} size="mid" onAct={() => type({ amount: writeVolume(ul) })}>
              {writeVolume(ul)}
            </Act>
          ))}
        </div>
      ) : null}
      {about.map(({ code, severity, why }) => (
        <Notice key={`${code} ${why.say}`} tone={severity === 'stop' ? 'stop' : 'attention'} live="alert">
          {say(why)}
        </Notice>
      ))}
      <LotLine
        lots={lots}
        chosen={lots.find((one) => one.lot.id === typed.lot) ?? null}
        text={typed.lotText}
        onChoose={(lot) => type({ lot, lotText: '' })}
        onText={(lotText) => type({ lotText, lot: null })}
      />
      <BoxLine
        boxes={boxes}
        box={boxes.find((one) => one.lot.id === typed.box) ?? null}
        onBox={(box) => type({ box })}
      />
      <ChooseOne
        label={say('round.different.outcome')}
        options={outcomes.map((id) => ({ id, label: say(`round.outcome.${id}`) }))}
        value={typed.outcome}
        onChange={(outcome) => type({ outcome })}
        big
      />
      <Field
        label={say('desk.seen.note')}
        value={typed.note}
        onChange={(note) => type({ note })}
        lines
        maxLength={500}
      />
      <Act
        main={!far}
        stop={far}
        size="big"
        why={now === null ? say('round.why.amount') : null}
        onAct={() => (now === null ? undefined : onBody(saidAgain(body, now, about, person?.id ?? null)))}
      >
        {say(far ? 'round.different.really' : 'round.correct.keep')}
      </Act>
    </>
  );
}
