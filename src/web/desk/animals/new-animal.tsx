import { useMemo, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { readWhole } from '../../../core/chip/whole-number.js';
import { AnimalId, type SectionId } from '../../../core/ids.js';
import type { Weight } from '../../../core/quantity/read-weight.js';
import { takeIn, weighAnimal } from '../../../log/commands/animal.js';
import { scanChip } from '../../../log/commands/round.js';
import { carriersOf } from '../../../log/views/chips/carriers.js';
import { carriedElsewhere } from '../../../log/views/chips/chip-elsewhere.js';
import { chipsOf } from '../../../log/views/chips/chip-pack.js';
import { nameOf, nobodys } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { Tick } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { WeightField, weightIn } from '../../parts/fields/weight-field.js';
import { animalPath } from '../../parts/links.js';
import { Page, Part } from '../../parts/page.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { useScan } from '../../scan/use-scan.js';
import { newId, useShelter, useWorld } from '../../store/here.js';
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
    photo: null,
    notes: '',
  });
  const [section, setSection] = useState<SectionId | null>(null);
  const [kennel, setKennel] = useState('');
  const [weight, setWeight] = useState('');
  const [chosen, setChosen] = useState<Weight | null>(null);
  const world = useWorld();
  const [chip, setChip] = useState('');
  const [scanned, setScanned] = useState('');
  /** A short number came twice, so that it is no piece of a longer one. */
  const [twice, setTwice] = useState(false);
  useScan((raw) => {
    setTwice(raw === chip);
    setChip(raw);
    setScanned(raw);
  });
  const short = chip.replace(/[^0-9A-Za-z]/g, '').toUpperCase();
  const reading = chip.trim() === '' ? null : readWhole(chip, chipsOf(world).known, twice ? short : null);
  /** It has been here before: two records of one animal help nobody. */
  const left = reading?.ok ? carriedElsewhere(world, reading.value.code) : null;
  const [here] = reading?.ok ? carriersOf(world, reading.value.code) : [];
  const asksTwice = twice || (reading !== null && !reading.ok && reading.why.say === 'chip.once-more');

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
    if (reading !== null && !reading.ok) return reading;
    return [
      ...taken.value,
      ...(weighed === null ? [] : weighAnimal(id, { grams: weighed.grams, entered: weight.trim() }, at)),
      ...(reading === null
        ? []
        : scanChip(
            id,
            {
              target: 'animal',
              occasion: 'intake',
              found: { raw: chip, code: reading.value.code, class: reading.value.class },
              typed: chip !== scanned,
            },
            at,
          )),
    ];
  };

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
          onChange={(text) => {
            setChip(text);
            setTwice(false);
          }}
          figure
          wrong={reading !== null && !reading.ok ? say(reading.why) : null}
        />
        {asksTwice ? <Tick label={say('desk.new.chip-twice')} value={twice} onChange={setTwice} /> : null}
        <ChipWarnings warnings={reading?.ok ? reading.value.warnings : []} />
        {here === undefined ? null : (
          <Notice tone="stop" live="alert">
            {say('desk.new.chip-here', { animal: nameOf(here) })}{' '}
            <Link href={animalPath(here.id)}>{say('parts.open-animal')}</Link>
          </Notice>
        )}
        {left === null || !reading?.ok ? null : (
          <Notice tone="stop" live="alert">
            {nobodys(world, reading.value.code)} <Link href={animalPath(left.animal)}>{say('parts.open-animal')}</Link>
          </Notice>
        )}
      </Part>
      <div className="sheet stack">
        <RecordFoot intent={intent()} action={say('desk.new.take-in')} onSaved={() => go(animalPath(id))} />
      </div>
    </Page>
  );
}
