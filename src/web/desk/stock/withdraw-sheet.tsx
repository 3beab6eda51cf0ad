import { useState } from 'react';
import { withdrawLot } from '../../../log/commands/shelter.js';
import { effective } from '../../../log/views/effective.js';
import type { Lot } from '../../../log/views/shelter.js';
import { lotOf } from '../../../told/lot-words.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { RecordSheet } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';

const reasons = ['recalled', 'expired', 'used-up', 'stored-wrong', 'other'] as const;

/** Take a lot off the shelf. Doses from a recalled or badly stored lot count no longer: it is said how many that is. */
export function WithdrawSheet({ lot, onClose }: { lot: Lot; onClose: () => void }) {
  const world = useWorld();
  const [why, setWhy] = useState<(typeof reasons)[number] | null>(null);
  const [note, setNote] = useState('');
  const concerned = new Set<string>();
  for (const [subject, records] of world.bySubject) {
    if (effective(records).some((one) => one.kind === 'treatment-given' && one.body.lot === lot.id))
      concerned.add(subject);
  }
  const voids = why === 'recalled' || why === 'stored-wrong';
  return (
    <RecordSheet
      title={say('desk.stock.withdraw-lot', { lot: lot.lotText })}
      intent={why === null ? { missing: say('desk.stock.needs-why') } : withdrawLot(lot.id, { why, note }, now())}
      action={say('desk.stock.withdraw')}
      stop
      onClose={onClose}
    >
      <p>{lotOf(world.shelter, lot)}</p>
      <ChooseOne
        label={say('desk.holds.why')}
        options={reasons.map((id) => ({ id, label: say(`desk.withdrawn.${id}`) }))}
        value={why}
        onChange={setWhy}
        flow
      />
      {voids && concerned.size > 0 ? (
        <Notice tone="attention">{say('desk.stock.voids', { count: concerned.size })}</Notice>
      ) : null}
      <Field label={say('desk.seen.note')} value={note} onChange={setNote} maxLength={300} />
    </RecordSheet>
  );
}
