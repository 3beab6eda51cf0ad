import { useEffect, useState } from 'react';
import type { LotId } from '../../../../core/ids.js';
import { type GivenTyped, givenOtherwise, typedOf } from '../../../../log/bedside/given-otherwise.js';
import { correct } from '../../../../log/commands/animal.js';
import type { LogRecord } from '../../../../log/record.js';
import { say } from '../../../../words/say.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { VolumeField } from '../../../parts/fields/volume-field.js';
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
  const [typed, setTyped] = useState(() => typedOf(body));
  const type = (more: Partial<GivenTyped>): void => setTyped((before) => ({ ...before, ...more }));
  const lots = [...shelter.lots.values()].filter((one) => one.of.is === 'product' && one.of.product === body.product);
  const boxes = [...shelter.lots.values()].filter((one) => one.of.is === 'syringe' && one.of.syringe === body.syringe);
  const scale = shelter.formulary?.syringes.find((one) => one.id === body.syringe)?.scale ?? null;

  useEffect(() => {
    const now = givenOtherwise(record.body, typed, scale);
    onIntent(now === null ? { missing: say('desk.correct.needs-volume') } : correct(record, 'treatment-given', now));
  }, [record, typed, scale, onIntent]);

  return (
    <>
      {body.volume_ul === null ? (
        <Field
          label={say('desk.correct.pieces')}
          value={typed.amount}
          onChange={(amount) => type({ amount })}
          maxLength={20}
          narrow
        />
      ) : (
        <VolumeField
          label={say('desk.correct.volume')}
          text={typed.amount}
          onText={(amount) => type({ amount })}
          chosen={typed.chosen}
          onChosen={(chosen) => type({ chosen })}
          scale={scale}
        />
      )}
      <ChooseOne
        label={say('desk.correct.outcome')}
        options={outcomes.map((id) => ({ id, label: say(`desk.outcome.${id}`) }))}
        value={typed.outcome}
        onChange={(outcome) => type({ outcome })}
        flow
      />
      <Pick<LotId | 'none'>
        label={say('desk.stock.lot')}
        options={[
          { id: 'none' as const, label: say('desk.lot-unknown') },
          ...lots.map(({ id, lotText }) => ({ id, label: lotText })),
        ]}
        value={typed.lot ?? 'none'}
        onChange={(lot) => type({ lot: lot === 'none' ? null : lot })}
        narrow
      />
      {typed.lot === null ? (
        <Field
          label={say('desk.correct.lot-text')}
          value={typed.lotText}
          onChange={(lotText) => type({ lotText })}
          maxLength={60}
          narrow
        />
      ) : null}
      {boxes.length === 0 ? null : (
        <Pick<LotId | 'none'>
          label={say('desk.correct.syringe-box')}
          options={[
            { id: 'none' as const, label: say('desk.lot-unknown') },
            ...boxes.map(({ id, lotText }) => ({ id, label: lotText })),
          ]}
          value={typed.box ?? 'none'}
          onChange={(box) => type({ box: box === 'none' ? null : box })}
          narrow
        />
      )}
      <Field
        label={say('desk.seen.note')}
        value={typed.note}
        onChange={(note) => type({ note })}
        lines
        maxLength={500}
      />
    </>
  );
}
