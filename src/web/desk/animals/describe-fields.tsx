import type { BirthInterval, Neutered, Sex } from '../../../core/animal/animal.js';
import type { Photo } from '../../../core/animal/photo.js';
import type { CalendarDate } from '../../../core/calendar.js';
import { LitterId } from '../../../core/ids.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { DayField } from '../../parts/fields/day-field.js';
import { Field } from '../../parts/fields/field.js';
import { newId, useWorld } from '../../store/here.js';
import { BirthFields } from './birth-fields.js';
import { PhotoField } from './photo-field.js';

/** What is known about an animal, as the form holds it. */
export interface Described {
  readonly name: string;
  readonly label: string;
  readonly litter: string;
  readonly sex: Sex;
  readonly neutered: Neutered;
  readonly born: BirthInterval | null;
  readonly arrivedOn: CalendarDate | null;
  readonly collar: string;
  readonly coat: string;
  readonly mark: string;
  readonly photo: Photo | null;
  readonly notes: string;
}

const sexes = ['female', 'male', 'unknown'] as const;
const yesNo = ['yes', 'no', 'unknown'] as const;

interface DescribeFieldsProps {
  readonly today: CalendarDate;
  readonly value: Described;
  readonly onChange: (next: Described) => void;
}

export function DescribeFields({ today, value, onChange }: DescribeFieldsProps) {
  const put = (patch: Partial<Described>): void => onChange({ ...value, ...patch });
  return (
    <div className="columns two">
      <div className="stack">
        <Field label={say('desk.animal.name')} value={value.name} onChange={(name) => put({ name })} maxLength={120} />
        <Field
          label={say('desk.animal.number')}
          hint={say('desk.animal.number-hint')}
          value={value.label}
          onChange={(label) => put({ label })}
          maxLength={60}
        />
        <Field
          label={say('desk.animal.litter')}
          hint={say('desk.animal.litter-hint')}
          value={value.litter}
          onChange={(litter) => put({ litter })}
          maxLength={80}
        />
        <ChooseOne
          label={say('desk.animal.sex')}
          options={sexes.map((id) => ({ id, label: say(`desk.sex.${id}`) }))}
          value={value.sex}
          onChange={(sex) => put({ sex })}
          flow
        />
        <ChooseOne
          label={say('desk.animal.neutered')}
          options={yesNo.map((id) => ({ id, label: say(`parts.${id}`) }))}
          value={value.neutered}
          onChange={(neutered) => put({ neutered })}
          flow
        />
        <BirthFields today={today} value={value.born} onChange={(born) => put({ born })} />
        <DayField
          label={say('desk.animal.arrived')}
          value={value.arrivedOn}
          onChange={(arrivedOn) => put({ arrivedOn })}
          required
        />
      </div>
      <div className="stack">
        <Field
          label={say('desk.animal.collar')}
          hint={say('desk.animal.collar-hint')}
          value={value.collar}
          onChange={(collar) => put({ collar })}
          maxLength={60}
        />
        <Field label={say('desk.animal.coat')} value={value.coat} onChange={(coat) => put({ coat })} maxLength={120} />
        <Field
          label={say('desk.animal.mark')}
          hint={say('desk.animal.mark-hint')}
          value={value.mark}
          onChange={(mark) => put({ mark })}
          maxLength={200}
        />
        <PhotoField value={value.photo} onChange={(photo) => put({ photo })} />
        <Field
          label={say('desk.animal.notes')}
          value={value.notes}
          onChange={(notes) => put({ notes })}
          lines
          maxLength={2000}
        />
      </div>
    </div>
  );
}

/** The litter of that name that is known already, or a new one; null for an empty field. */
export function useLitterNamed(): (name: string) => { id: LitterId; name: string } | null {
  const world = useWorld();
  return (name) => {
    const wanted = name.trim();
    if (wanted === '') return null;
    for (const animal of world.animals.values()) {
      if (animal.litter !== null && animal.left === null && animal.litter.name === wanted) return animal.litter;
    }
    return { id: LitterId.parse(newId()), name: wanted };
  };
}
