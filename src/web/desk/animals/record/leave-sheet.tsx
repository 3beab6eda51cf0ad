import { useState } from 'react';
import type { CalendarDate } from '../../../../core/calendar.js';
import { letLeave } from '../../../../log/commands/animal.js';
import { openThings } from '../../../../log/flags/open-things.js';
import { dueIn } from '../../../../log/views/world.js';
import { nameOf } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { DayField } from '../../../parts/fields/day-field.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { RecordSheet } from '../../../parts/record-sheet.js';
import { Notice } from '../../../parts/state.js';
import { usePeople, useWorld } from '../../../store/here.js';
import type { DoProps } from './doing.js';
import { OpenList } from './unsettled.js';

const ways = ['adopted', 'transferred', 'returned-to-owner', 'died', 'other'] as const;

export function LeaveSheet({ animal, onClose }: DoProps) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const [how, setHow] = useState<(typeof ways)[number] | null>(null);
  const [on, setOn] = useState<CalendarDate | null>(today);
  const [note, setNote] = useState('');
  const open = dueIn(world, animal, today).filter((item) => item.status === 'due' || item.status === 'overdue');
  const [person, setPerson] = useState<string | null>(null);
  const things = openThings(world, animal, today);
  const inCharge = usePeople().filter(({ active, role }) => active && role === 'medical');
  const who = inCharge.find((one) => one.id === person);
  const intent = () => {
    if (how === null || on === null) return { missing: say('desk.leave.needs') };
    if (things.length > 0 && who === undefined) return { missing: say('desk.leave.needs-word') };
    const word = who?.id ?? null;
    return letLeave(animal.id, { how, on, note, word }, now());
  };
  return (
    <RecordSheet
      title={say('desk.do-title.leave', { name: nameOf(animal) })}
      intent={intent()}
      action={say('desk.do.leave')}
      stop
      onClose={onClose}
    >
      {things.length === 0 ? null : (
        <section className="stack tight">
          <p>
            <b>{say('desk.open.on-leaving')}</b>
          </p>
          <OpenList things={things} />
        </section>
      )}
      {open.length === 0 ? null : (
        <Notice tone="attention">
          {say('desk.leave.still-due', { what: { list: open.map((item) => item.scheduleName) } })}
        </Notice>
      )}
      <ChooseOne
        label={say('desk.leave.how')}
        options={ways.map((id) => ({ id, label: say(`desk.left.${id}`) }))}
        value={how}
        onChange={setHow}
        flow
      />
      <DayField label={say('desk.leave.on')} value={on} onChange={setOn} />
      {things.length === 0 ? null : (
        <Pick
          label={say('desk.leave.word')}
          options={inCharge.map((one) => ({ id: one.id as string, label: one.name }))}
          value={person}
          onChange={setPerson}
        />
      )}
      <Field label={say('desk.seen.note')} value={note} onChange={setNote} lines maxLength={500} />
    </RecordSheet>
  );
}
