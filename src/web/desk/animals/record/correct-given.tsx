import { useEffect, useMemo, useState } from 'react';
import type { LotId } from '../../../../core/ids.js';
import {
  type GivenTyped,
  givenOtherwise,
  judgeOtherwise,
  saidAgain,
  typedOf,
} from '../../../../log/bedside/given-otherwise.js';
import { correct } from '../../../../log/commands/animal.js';
import type { LogRecord } from '../../../../log/record.js';
import { say } from '../../../../words/say.js';
import { ChooseOne, Tick } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { VolumeField } from '../../../parts/fields/volume-field.js';
import type { Intent } from '../../../parts/record-sheet.js';
import { Notice } from '../../../parts/state.js';
import { usePerson, useShelter } from '../../../store/here.js';

const outcomes = ['taken', 'partly-taken', 'not-taken'] as const;

interface CorrectGivenProps {
  readonly record: LogRecord<'treatment-given'>;
  readonly onIntent: (intent: Intent) => void;
}

/** What was really given: amount, lot, how much was taken. */
export function CorrectGiven({ record, onIntent }: CorrectGivenProps) {
  const shelter = useShelter();
  const by = usePerson()?.id ?? null;
  const { body } = record;
  const [typed, setTyped] = useState(() => typedOf(body));
  const type = (more: Partial<GivenTyped>): void => setTyped((before) => ({ ...before, ...more }));
  const lots = [...shelter.lots.values()].filter((one) => one.of.is === 'product' && one.of.product === body.product);
  const boxes = [...shelter.lots.values()].filter((one) => one.of.is === 'syringe' && one.of.syringe === body.syringe);
  const scale = shelter.formulary?.syringes.find((one) => one.id === body.syringe)?.scale ?? null;

  /** The amount of which somebody said that it was really given; another one asks again. */
  const [really, setReally] = useState<number | null>(null);
  const { formulary } = shelter;
  const now = useMemo(() => givenOtherwise(record.body, typed, scale), [record, typed, scale]);
  const about = useMemo(
    () => (now === null ? [] : judgeOtherwise(record.body, now, formulary)),
    [record, now, formulary],
  );
  const volume = now?.volume_ul ?? null;
  const far = about.some(({ severity }) => severity === 'stop');

  useEffect(() => {
    if (now === null) onIntent({ missing: say('desk.correct.needs-volume') });
    else if (far && really !== now.volume_ul) onIntent({ missing: say('ribbon.key-in.needs-really') });
    else onIntent(correct(record, 'treatment-given', saidAgain(record.body, now, about, by)));
  }, [record, now, about, far, really, by, onIntent]);

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
      {about.map(({ code, severity, why }) => (
        <Notice key={`${code} ${why.say}`} tone={severity === 'stop' ? 'stop' : 'attention'} live="alert">
          {say(why)}
        </Notice>
      ))}
      {far ? (
        <Tick
          label={say('round.different.really')}
          value={really === volume}
          onChange={(on) => setReally(on ? volume : null)}
        />
      ) : null}
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
