import { useMemo, useState } from 'react';
import { LotId } from '../../../core/ids.js';
import { prepareSyringes } from '../../../log/commands/shelter.js';
import { syringeName } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { WhenField } from '../../parts/fields/when-field.js';
import { type Intent, RecordSheet } from '../../parts/record-sheet.js';
import { newId, useShelter } from '../../store/here.js';
import { readCount } from './read-count.js';

const answers = ['until', 'unsaid'] as const;

/**
 * Syringes made ready for drawing blood: how many, with what, out of which box, and until when they keep. How long that is
 * stands in no document, so whoever makes them says it, or says that nobody has.
 */
export function PrepareSyringesSheet({ onClose }: { onClose: () => void }) {
  const shelter = useShelter();
  const today = useToday(shelter.zone);
  const id = useMemo(() => LotId.parse(newId()), []);
  const [start] = useState(now);
  const [count, setCount] = useState('');
  const [lotText, setLotText] = useState('');
  const [what, setWhat] = useState('');
  const [withLot, setWithLot] = useState('');
  const [box, setBox] = useState<LotId | 'none'>('none');
  const [keeps, setKeeps] = useState<(typeof answers)[number] | null>(null);
  const [until, setUntil] = useState<string | null>(start);
  const pieces = readCount(count);
  const boxes = [...shelter.lots.values()].flatMap((lot) =>
    lot.of.is === 'syringe' && lot.withdrawn === null && (lot.expires === null || lot.expires >= today)
      ? [{ id: lot.id, lotText: lot.lotText, syringe: lot.of.syringe }]
      : [],
  );
  const intent = (): Intent => {
    if (pieces === null || pieces === 0) return { missing: say('desk.stock.needs-count') };
    if (lotText.trim() === '') return { missing: say('desk.prepare-syringes.needs-lot') };
    if (what.trim() === '') return { missing: say('desk.prepare-syringes.needs-what') };
    if (keeps === null) return { missing: say('desk.prepare-syringes.needs-until') };
    if (keeps === 'until' && until === null) return { missing: say('parts.time-wrong') };
    const body = {
      lotText: lotText.trim(),
      count: pieces,
      with: what.trim(),
      withLot: withLot.trim(),
      syringeLot: box === 'none' ? null : box,
      keepsUntil: keeps === 'until' ? until : null,
    };
    return prepareSyringes(id, body, now());
  };
  return (
    <RecordSheet
      title={say('desk.prepare-syringes.title')}
      intent={intent()}
      action={say('desk.prepare-syringes.record')}
      onClose={onClose}
    >
      <p className="soft">{say('desk.prepare-syringes.lead')}</p>
      <Field
        label={say('desk.stock.pieces')}
        value={count}
        onChange={setCount}
        inputMode="numeric"
        figure
        narrow
        wrong={count === '' || pieces !== null ? null : say('desk.stock.whole')}
      />
      <Field
        label={say('desk.prepare-syringes.lot')}
        hint={say('desk.prepare-syringes.lot-hint')}
        value={lotText}
        onChange={setLotText}
        figure
        narrow
        maxLength={60}
      />
      <Field
        label={say('desk.prepare-syringes.with')}
        hint={say('desk.prepare-syringes.with-hint')}
        value={what}
        onChange={setWhat}
        maxLength={120}
      />
      <Field
        label={say('desk.prepare-syringes.with-lot')}
        value={withLot}
        onChange={setWithLot}
        figure
        narrow
        maxLength={60}
      />
      {boxes.length === 0 ? null : (
        <Pick<LotId | 'none'>
          label={say('desk.correct.syringe-box')}
          options={[
            { id: 'none' as const, label: say('desk.lot-unknown') },
            ...boxes.map((one) => ({ id: one.id, label: one.lotText, note: syringeName(shelter, one.syringe) })),
          ]}
          value={box}
          onChange={setBox}
        />
      )}
      <ChooseOne
        label={say('desk.prepare-syringes.keeps')}
        options={answers.map((one) => ({ id: one, label: say(`desk.prepare-syringes.keeps.${one}`) }))}
        value={keeps}
        onChange={setKeeps}
        flow
      />
      {keeps === 'until' ? (
        <WhenField label={say('desk.prepare-syringes.until')} start={start} onChange={setUntil} />
      ) : null}
    </RecordSheet>
  );
}
