import { useState } from 'react';
import { readVolume } from '../../../core/quantity/read-volume.js';
import { writeVolume } from '../../../core/quantity/write.js';
import { lotChoices } from '../../../log/bedside/lot-choices.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import type { LogRecord } from '../../../log/record.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { BoxLine, boxesOfSyringe } from '../around/box-line.js';
import { LotLine } from '../around/lot-line.js';
import { useRound } from '../around/use-round.js';

interface CorrectGivenProps {
  readonly record: LogRecord<'treatment-given'>;
  readonly onBody: (body: BodyInput<'treatment-given'>) => Promise<void>;
}

const outcomes = ['taken', 'partly-taken', 'not-taken'] as const;

/** Another amount, another lot, or not all of it stayed in. */
export function CorrectGiven({ record, onBody }: CorrectGivenProps) {
  const { world, today } = useRound();
  const { body } = record;
  const byVolume = body.volume_ul !== null;
  const [text, setText] = useState(body.volume_ul === null ? body.pieces : writeVolume(body.volume_ul));
  const [lot, setLot] = useState(body.lot);
  const [lotText, setLotText] = useState(body.lotText);
  const [outcome, setOutcome] = useState<(typeof outcomes)[number]>(body.outcome);
  const syringe = world.shelter.formulary?.syringes.find((one) => one.id === body.syringe);
  const reading = byVolume && text.trim() !== '' ? readVolume(text, syringe?.scale ?? null) : null;
  const volume = reading?.is === 'volume' ? reading.ul : null;
  const [box, setBox] = useState(body.syringeLot);
  const boxes = lotChoices(world, boxesOfSyringe(body.syringe), today);
  const lots = lotChoices(world, (of) => of.is === 'product' && of.product === body.product, today);
  const ready = byVolume ? volume !== null : text.trim() !== '' || body.pieces === '';
  return (
    <>
      <Field
        label={say(byVolume ? 'round.different.amount' : 'round.different.pieces')}
        value={text}
        onChange={setText}
        figure
        wrong={reading === null || reading.is === 'volume' ? null : say(reading.why)}
      />
      {reading?.is === 'ask' ? (
        <div className="act-two">
          {reading.readings.map((ul) => (
            <Act key={ul} size="mid" onAct={() => setText(writeVolume(ul))}>
              {writeVolume(ul)}
            </Act>
          ))}
        </div>
      ) : null}
      <LotLine
        lots={lots}
        chosen={lots.find((one) => one.lot.id === lot) ?? null}
        text={lotText}
        onChoose={(id) => {
          setLot(id);
          setLotText('');
        }}
        onText={(next) => {
          setLotText(next);
          setLot(null);
        }}
      />
      <BoxLine boxes={boxes} box={boxes.find((one) => one.lot.id === box) ?? null} onBox={setBox} />
      <ChooseOne
        label={say('round.different.outcome')}
        options={outcomes.map((id) => ({ id, label: say(`round.outcome.${id}`) }))}
        value={outcome}
        onChange={setOutcome}
        big
      />
      <Act
        main
        size="big"
        disabled={!ready}
        onAct={() =>
          onBody({
            ...body,
            volume_ul: byVolume ? volume : null,
            pieces: byVolume ? '' : text.trim(),
            lot,
            lotText,
            syringeLot: box,
            outcome,
          })
        }
      >
        {say('round.correct.keep')}
      </Act>
    </>
  );
}
