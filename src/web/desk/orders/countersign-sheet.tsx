import { useState } from 'react';
import type { Animal } from '../../../core/animal/animal.js';
import type { PlacedOrder } from '../../../core/animal/vet-order.js';
import { countersignOrder } from '../../../log/commands/order.js';
import { orderValues } from '../../../told/order-words.js';
import { writtenText } from '../../../told/written-text.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { type Intent, RecordSheet } from '../../parts/record-sheet.js';
import { usePerson, useWorld } from '../../store/here.js';

const answers = ['mine', 'not-mine'] as const;

interface CountersignProps {
  readonly animal: Animal;
  readonly order: PlacedOrder;
  readonly onClose: () => void;
}

/** The veterinarian reads what was written down in their name, and says whether it is theirs. */
export function CountersignSheet({ animal, order, onClose }: CountersignProps) {
  const world = useWorld();
  const person = usePerson();
  const [says, setSays] = useState<(typeof answers)[number] | null>(null);
  const [note, setNote] = useState('');
  const intent = (): Intent => {
    if (person === null) return { missing: say('parts.nobody-working') };
    if (person.id !== order.written?.by)
      return { missing: say('order.countersign.others', { by: { person: order.terms.vet } }) };
    if (says === null) return { missing: say('order.countersign.needs-answer') };
    return countersignOrder(person, animal.id, order, { says, note }, now());
  };
  return (
    <RecordSheet
      title={say('order.countersign.title', { order: order.terms.name })}
      intent={intent()}
      action={say('order.countersign.record')}
      stop={says === 'not-mine'}
      onClose={onClose}
    >
      <p>{say('desk.told.order-written', orderValues(world, order.terms))}</p>
      <p className="soft">{writtenText(order, world.shelter.protocol)}</p>
      <ChooseOne
        label={say('order.countersign.is')}
        options={answers.map((id) => ({ id, label: say(`order.countersign.${id}`) }))}
        value={says}
        onChange={setSays}
        flow
      />
      {says === 'not-mine' ? (
        <Field label={say('order.countersign.why')} value={note} onChange={setNote} lines required maxLength={300} />
      ) : null}
    </RecordSheet>
  );
}
