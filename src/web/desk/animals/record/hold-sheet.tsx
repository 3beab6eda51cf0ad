import { useState } from 'react';
import { holdCodes } from '../../../../core/animal/named.js';
import { addSpan, type CalendarDate } from '../../../../core/calendar.js';
import type { PersonId, ScheduleId } from '../../../../core/ids.js';
import { placeHold } from '../../../../log/commands/animal.js';
import { nameOf } from '../../../../told/names.js';
import { personName, say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { ChooseOne, ChooseSome } from '../../../parts/fields/choices.js';
import { DayField } from '../../../parts/fields/day-field.js';
import { Field } from '../../../parts/fields/field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { usePerson, useShelter } from '../../../store/here.js';
import type { DoProps } from './doing.js';

const reach = ['all', 'some'] as const;

/** A reason not to treat now: who looks after it, and the day on which it ends or is looked at again. */
export function HoldSheet({ animal, onClose }: DoProps) {
  const shelter = useShelter();
  const today = useToday(shelter.zone);
  const [all, setAll] = useState<(typeof reach)[number]>('all');
  const [some, setSome] = useState<ScheduleId[]>([]);
  const [code, setCode] = useState<(typeof holdCodes)[number]>('veterinarian');
  const [until, setUntil] = useState<CalendarDate | null>(null);
  const person = usePerson();
  const owners = shelter.people.filter(({ active, role }) => active && (role === 'supervisor' || role === 'medical'));
  const [owner, setOwner] = useState<PersonId | null>(owners.find(({ id }) => id === person?.id)?.id ?? null);
  const [recheckOn, setRecheckOn] = useState<CalendarDate | null>(() => {
    const after = shelter.protocol?.heldLong?.span;
    return after === undefined ? null : addSpan(today, after);
  });
  const [half, setHalf] = useState<readonly ('until' | 'recheck')[]>([]);
  const isHalf = (which: 'until' | 'recheck') => (one: boolean) =>
    setHalf((before) => [...before.filter((other) => other !== which), ...(one ? [which] : [])]);
  const [note, setNote] = useState('');
  const intent = (): Intent => {
    if (all === 'some' && some.length === 0) return { missing: say('desk.holds.needs-some') };
    if (half.some((which) => which === 'until' || until === null)) return { missing: say('parts.day-half') };
    const schedules = all === 'all' ? 'all' : some;
    return placeHold(
      animal.id,
      { schedules, code, from: today, until, owner, recheckOn: until === null ? recheckOn : null, note },
      now(),
    );
  };
  return (
    <RecordSheet
      title={say('desk.do-title.hold', { name: nameOf(animal) })}
      intent={intent()}
      action={say('desk.do.hold')}
      onClose={onClose}
    >
      <ChooseOne
        label={say('desk.holds.what')}
        options={reach.map((id) => ({ id, label: say(`desk.holds.reach.${id}`) }))}
        value={all}
        onChange={setAll}
        flow
      />
      {all === 'all' ? null : (
        <ChooseSome
          label={say('desk.due.treatment')}
          options={(shelter.protocol?.schedules ?? []).map(({ id, name }) => ({ id, label: name }))}
          value={some}
          onChange={setSome}
          flow
        />
      )}
      <ChooseOne
        label={say('desk.holds.why')}
        options={holdCodes.map((id) => ({ id, label: say(`desk.hold.code.${id}`) }))}
        value={code}
        onChange={setCode}
        flow
      />
      <DayField
        label={say('desk.holds.until')}
        hint={say('desk.holds.until-hint')}
        value={until}
        onChange={setUntil}
        onHalf={isHalf('until')}
      />
      {until !== null ? null : (
        <DayField
          label={say('desk.holds.recheck')}
          hint={say('desk.holds.recheck-hint')}
          value={recheckOn}
          onChange={setRecheckOn}
          onHalf={isHalf('recheck')}
        />
      )}
      <Pick
        label={say('desk.holds.owner')}
        options={owners.map(({ id }) => ({ id, label: personName(id) }))}
        value={owner}
        onChange={setOwner}
      />
      <Field label={say('desk.seen.note')} value={note} onChange={setNote} lines maxLength={500} />
    </RecordSheet>
  );
}
