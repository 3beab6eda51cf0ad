import { useState } from 'react';
import { type ProtocolDocument, type Schedule, slug } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { Sheet } from '../../../parts/sheet.js';
import { withSchedule } from './edited.js';
import { firstProblem, TakeFoot } from './take-foot.js';

interface ScheduleSheetProps {
  readonly document: ProtocolDocument;
  readonly schedule: Schedule;
  readonly onDone: (document: ProtocolDocument) => void;
  readonly onClose: () => void;
}

const labelAges = ['leave', 'hold'] as const;

/** What a treatment is called, where it stands on a visit, and which products meet it. */
export function ScheduleSheet({ document, schedule, onDone, onClose }: ScheduleSheetProps) {
  const [name, setName] = useState(schedule.name);
  const [place, setPlace] = useState(String(schedule.visitOrder));
  const [classes, setClasses] = useState(schedule.satisfiedBy.join(', '));
  const [labelAge, setLabelAge] = useState(schedule.labelAge);
  const placeWrong = /^\d{1,4}$/.test(place.trim()) ? null : say('protocol-desk.order-wrong', { text: place });
  const satisfiedBy = classes.split(/[,;\s]+/).filter((one) => one !== '');
  const classWrong = satisfiedBy.find((one) => !slug.safeParse(one).success);
  const edited = withSchedule(document, schedule.id, {
    name: name.trim(),
    visitOrder: placeWrong === null ? Number(place) : Number.NaN,
    satisfiedBy,
    labelAge,
  });
  const fields = name.trim() === '' || placeWrong !== null || classWrong !== undefined;
  return (
    <Sheet title={say('protocol-desk.frame-of', { what: schedule.name })} open firm onClose={onClose} wide>
      <Field
        label={say('protocol-desk.frame.name')}
        value={name}
        onChange={setName}
        wrong={name.trim() === '' ? say('protocol-desk.not-empty') : null}
        maxLength={80}
      />
      <Field
        label={say('protocol-desk.frame.visitOrder')}
        hint={say('protocol-desk.order-hint')}
        value={place}
        onChange={setPlace}
        wrong={placeWrong}
        inputMode="numeric"
        narrow
        figure
      />
      <Field
        label={say('protocol-desk.frame.satisfiedBy')}
        hint={say('protocol-desk.classes-hint')}
        value={classes}
        onChange={setClasses}
        wrong={classWrong === undefined ? null : say('protocol-desk.class-wrong', { text: classWrong })}
        maxLength={600}
      />
      {schedule.action === 'give' ? (
        <ChooseOne
          label={say('protocol-desk.frame.labelAge')}
          options={labelAges.map((id) => ({ id, label: say(`desk.doc.label-${id}`) }))}
          value={labelAge}
          onChange={setLabelAge}
        />
      ) : null}
      <TakeFoot
        edited={edited}
        why={fields ? null : firstProblem(edited)}
        waits={fields}
        action={say('protocol-desk.take-frame')}
        onDone={onDone}
        onClose={onClose}
      />
    </Sheet>
  );
}
