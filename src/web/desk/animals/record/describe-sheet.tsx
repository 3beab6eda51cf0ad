import { useState } from 'react';
import type { Animal } from '../../../../core/animal/animal.js';
import { describeAnimal } from '../../../../log/commands/animal.js';
import type { BodyInput } from '../../../../log/kinds/index.js';
import { nameOf } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { useShelter } from '../../../store/here.js';
import { type Described, DescribeFields, useLitterNamed } from '../describe-fields.js';
import type { DoProps } from './doing.js';

/** Change the description; only what differs is recorded. */
export function DescribeSheet({ animal, onClose }: DoProps) {
  const { zone } = useShelter();
  const today = useToday(zone);
  const litterNamed = useLitterNamed();
  const [value, setValue] = useState<Described>(() => describedOf(animal));
  const intent = (): Intent => {
    if (value.born === null || value.arrivedOn === null) return { missing: say('desk.new.needs-birth') };
    const body = changes(animal, value, litterNamed);
    return Object.keys(body).length === 0
      ? { missing: say('desk.describe.same') }
      : describeAnimal(animal.id, body, now());
  };
  return (
    <RecordSheet
      title={say('desk.do-title.describe', { name: nameOf(animal) })}
      intent={intent()}
      action={say('desk.do.describe')}
      wide
      onClose={onClose}
    >
      <DescribeFields today={today} value={value} onChange={setValue} />
    </RecordSheet>
  );
}

function describedOf(animal: Animal): Described {
  const { name, label, litter, sex, neutered, born, arrivedOn, marks, notes } = animal;
  return { name, label, litter: litter?.name ?? '', sex, neutered, born, arrivedOn, ...marks, notes };
}

type Body = BodyInput<'animal-described'>;

function changes(animal: Animal, to: Described, litterNamed: ReturnType<typeof useLitterNamed>): Body {
  const { collar, coat, mark, photo } = to;
  const marks = { collar, coat, mark, photo };
  const wanted: Body = {
    name: to.name,
    label: to.label,
    sex: to.sex,
    neutered: to.neutered,
    notes: to.notes,
    marks,
    ...(to.born === null ? {} : { born: to.born }),
    ...(to.arrivedOn === null ? {} : { arrivedOn: to.arrivedOn }),
    ...((animal.litter?.name ?? '') === to.litter.trim() ? {} : { litter: litterNamed(to.litter) }),
  };
  const was: Readonly<Record<string, unknown>> = { ...animal };
  const changed = Object.entries(wanted).filter(
    ([field, value]) => JSON.stringify(value) !== JSON.stringify(was[field]),
  );
  return Object.fromEntries(changed);
}
