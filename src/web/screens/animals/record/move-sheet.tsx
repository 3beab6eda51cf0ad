import { useState } from 'react';
import { rankOrder } from '../../../../core/biosecurity/section.js';
import { moveAnimal } from '../../../../log/commands/animal.js';
import { sectionOf } from '../../../../log/views/shelter.js';
import { say } from '../../../../words/say.js';
import { now } from '../../../clock.js';
import { Field } from '../../../parts/field.js';
import { RecordSheet } from '../../../parts/record-sheet.js';
import { Notice } from '../../../parts/state.js';
import { useShelter } from '../../../store/here.js';
import { nameOf } from '../../../told/names.js';
import { PlaceFields } from '../place-fields.js';
import type { DoProps } from './doing.js';

export function MoveSheet({ animal, onClose }: DoProps) {
  const shelter = useShelter();
  const [section, setSection] = useState(animal.section);
  const [kennel, setKennel] = useState(animal.kennel);
  const [why, setWhy] = useState('');
  const same = section === animal.section && kennel === animal.kennel;
  const [from, to] = [sectionOf(shelter, animal.section), sectionOf(shelter, section)];
  const cleaner =
    from !== null &&
    to !== null &&
    rankOrder(to.rank) < rankOrder(from.rank) &&
    rankOrder(from.rank) >= rankOrder('quarantine');
  return (
    <RecordSheet
      title={say('desk.do-title.move', { name: nameOf(animal) })}
      intent={same ? { missing: say('desk.move.same') } : moveAnimal(animal.id, { section, kennel, why }, now())}
      action={say('desk.do.move')}
      onClose={onClose}
    >
      <PlaceFields section={section} kennel={kennel} onSection={setSection} onKennel={setKennel} />
      {cleaner ? (
        <Notice tone="attention">{say('desk.move.to-cleaner', { from: from.name, to: to.name })}</Notice>
      ) : null}
      <Field label={say('desk.move.why')} value={why} onChange={setWhy} maxLength={200} />
    </RecordSheet>
  );
}
