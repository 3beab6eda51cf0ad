import { useEffect, useState } from 'react';
import type { LotId } from '../../../../core/ids.js';
import { writeVolume } from '../../../../core/quantity/write.js';
import { correct } from '../../../../log/commands/animal.js';
import type { LogRecord } from '../../../../log/record.js';
import { say } from '../../../../words/say.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { VolumeField, volumeIn } from '../../../parts/fields/volume-field.js';
import type { Intent } from '../../../parts/record-sheet.js';
import { useShelter } from '../../../store/here.js';

const outcomes = ['taken', 'partly-taken', 'not-taken'] as const;

interface CorrectGivenProps {
  readonly record: LogRecord<'treatment-given'>;
  readonly onIntent: (intent: Intent) => void;
}

/** What was really given: amount, lot, how much was taken. */
export function CorrectGiven({ record, onIntent }: CorrectGivenProps) {
  const shelter = useShelter();
  const { body } = record;
  const [text, setText] = useState(body.volume_ul === null ? '' : writeVolume(body.volume_ul));
  const [chosen, setChosen] = useState<number | null>(null);
  const [outcome, setOutcome] = useState(body.outcome);
  const [lot, setLot] = useState<LotId | 'none'>(body.lot ?? 'none');
  const [box, setBox] = useState<LotId | 'none'>(body.syringeLot ?? 'none');
  const [note, setNote] = useState(body.note);
  const lots = [...shelter.lots.values()].filter((one) => one.of.is === 'product' && one.of.product === body.product);
  const boxes = [...shelter.lots.values()].filter((one) => one.of.is === 'syringe' && one.of.syringe === body.syringe);
  const volume = body.volume_ul === null ? null : volumeIn(text, null, chosen);

  useEffect(() => {
    if (body.volume_ul !== null && volume === null) onIntent({ missing: say('desk.correct.needs-volume') });
    else
      onIntent(
        correct(record, 'treatment-given', {
          ...body,
          volume_ul: volume,
          outcome,
          lot: lot === 'none' ? null : lot,
          syringeLot: box === 'none' ? null : box,
          note,
        }),
      );
  }, [body, record, volume, outcome, lot, box, note, onIntent]);

  return (
    <>
      {body.volume_ul === null ? null : (
        <VolumeField
          label={say('desk.correct.volume')}
          text={text}
          onText={setText}
          chosen={chosen}
          onChosen={setChosen}
        />
      )}
      <ChooseOne
        label={say('desk.correct.outcome')}
        options={outcomes.map((id) => ({ id, label: say(`desk.outcome.${id}`) }))}
        value={outcome}
        onChange={setOutcome}
        flow
      />
      <Pick<LotId | 'none'>
        label={say('desk.stock.lot')}
        options={[
          { id: 'none' as const, label: say('desk.lot-unknown') },
          ...lots.map(({ id, lotText }) => ({ id, label: lotText })),
        ]}
        value={lot}
        onChange={setLot}
        narrow
      />
      {boxes.length === 0 ? null : (
        <Pick<LotId | 'none'>
          label={say('desk.correct.syringe-box')}
          options={[
            { id: 'none' as const, label: say('desk.lot-unknown') },
            ...boxes.map(({ id, lotText }) => ({ id, label: lotText })),
          ]}
          value={box}
          onChange={setBox}
          narrow
        />
      )}
      <Field label={say('desk.seen.note')} value={note} onChange={setNote} lines maxLength={500} />
    </>
  );
}
