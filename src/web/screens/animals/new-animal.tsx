import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { readChip } from '../../../core/chip/read-chip.js';
import { AnimalId, type SectionId } from '../../../core/ids.js';
import type { Weight } from '../../../core/quantity/read-weight.js';
import { takeIn, weighAnimal } from '../../../log/commands/animal.js';
import { scanChip } from '../../../log/commands/round.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { Field } from '../../parts/field.js';
import { animalPath } from '../../parts/links.js';
import { Page, Part } from '../../parts/page.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { WeightField, weightIn } from '../../parts/weight-field.js';
import { useScan } from '../../scan/use-scan.js';
import { newId, useShelter } from '../../store/here.js';
import { type Described, DescribeFields, useLitterNamed } from './describe-fields.js';
import { PlaceFields } from './place-fields.js';

/** Take an animal in: what it is, what tells it from others, where it goes, and what was found on arrival. */
export function NewAnimal() {
  const shelter = useShelter();
  const today = useToday(shelter.zone);
  const [, go] = useLocation();
  const id = useMemo(() => AnimalId.parse(newId()), []);
  const litterNamed = useLitterNamed();
  const [described, setDescribed] = useState<Described>({
    name: '',
    label: '',
    litter: '',
    sex: 'unknown',
    neutered: 'unknown',
    born: null,
    arrivedOn: today,
    collar: '',
    coat: '',
    mark: '',
    photo: '',
    notes: '',
  });
  const [section, setSection] = useState<SectionId | null>(null);
  const [kennel, setKennel] = useState('');
  const [weight, setWeight] = useState('');
  const [chosen, setChosen] = useState<Weight | null>(null);
  const [chip, setChip] = useState('');
  useScan((raw) => setChip(raw));

  const intent = (): Intent => {
    const { born, arrivedOn, name, label, litter, sex, neutered, collar, coat, mark, photo, notes } = described;
    if (born === null) return { missing: say('desk.new.needs-birth') };
    if (arrivedOn === null) return { missing: say('desk.new.needs-arrival') };
    const at = now();
    const body = {
      label,
      name,
      litter: litterNamed(litter),
      sex,
      neutered,
      born,
      arrivedOn,
      section,
      kennel,
      marks: { collar, coat, mark, photo },
      notes,
    };
    const taken = takeIn(id, body, at);
    if (!taken.ok) return taken;
    const weighed = weightIn(weight, shelter.weightUnit, chosen);
    if (weight.trim() !== '' && weighed === null) return { missing: say('desk.new.needs-weight') };
    const read = chip.trim() === '' ? null : readChip(chip);
    if (read !== null && !read.ok) return read;
    return [
      ...taken.value,
      ...(weighed === null ? [] : weighAnimal(id, { grams: weighed.grams, entered: weight.trim() }, at)),
      ...(read === null
        ? []
        : scanChip(
            id,
            {
              target: 'animal',
              occasion: 'intake',
              found: { raw: chip, code: read.value.code, class: read.value.class },
              typed: true,
            },
            at,
          )),
    ];
  };
  const reading = chip.trim() === '' ? null : readChip(chip);

  return (
    <Page title={say('desk.animals.new')}>
      <DescribeFields today={today} value={described} onChange={setDescribed} />
      <Part title={say('desk.new.place')}>
        <PlaceFields section={section} kennel={kennel} onSection={setSection} onKennel={setKennel} />
      </Part>
      <Part title={say('desk.new.found')}>
        <WeightField
          label={say('desk.animal.weight')}
          unit={shelter.weightUnit}
          text={weight}
          onText={setWeight}
          chosen={chosen}
          onChosen={setChosen}
        />
        <Field
          label={say('desk.animal.chip')}
          hint={say('desk.new.chip-hint')}
          value={chip}
          onChange={setChip}
          figure
          wrong={reading !== null && !reading.ok ? say(reading.why) : null}
          echo={reading?.ok ? reading.value.warnings.map((warning) => say(warning)).join(' ') : undefined}
        />
      </Part>
      <div className="sheet stack">
        <RecordFoot intent={intent()} action={say('desk.new.take-in')} onSaved={() => go(animalPath(id))} />
      </div>
    </Page>
  );
}
