import { useState } from 'react';
import { isIllness } from '../../../../core/animal/named.js';
import type { CalendarDate } from '../../../../core/calendar.js';
import { noteObservation } from '../../../../log/commands/animal.js';
import { toldOfIllness } from '../../../../log/flags/sick-flags.js';
import { observationCodes, observationWords } from '../../../../told/codes.js';
import { nameOf } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { DayField } from '../../../parts/fields/day-field.js';
import { Field } from '../../../parts/fields/field.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { WillBeTold } from '../../../parts/will-be-told.js';
import { useShelter, useWorld } from '../../../store/here.js';
import type { DoProps } from './doing.js';

const states = ['present', 'absent'] as const;

/** Something seen, or looked for and not seen; the protocol's rules ask about some of these. */
export function ObserveSheet({ animal, onClose }: DoProps) {
  const world = useWorld();
  const { zone } = useShelter();
  const today = useToday(zone);
  const [code, setCode] = useState<string | null>(null);
  const [state, setState] = useState<(typeof states)[number]>('present');
  const [on, setOn] = useState<CalendarDate | null>(today);
  const [until, setUntil] = useState<CalendarDate | null>(null);
  const [half, setHalf] = useState(false);
  const [note, setNote] = useState('');
  const intent = (): Intent => {
    if (code === null) return { missing: say('desk.seen.needs-code') };
    if (on === null || half) return { missing: say('parts.day-half') };
    if (until !== null && until < on) return { missing: say('desk.seen.ends-before') };
    return noteObservation(animal.id, { code, state, on, until, note }, now());
  };
  return (
    <RecordSheet
      title={say('desk.do-title.observe', { name: nameOf(animal) })}
      intent={intent()}
      action={say('desk.do.observe')}
      onClose={onClose}
    >
      <ChooseOne
        label={say('desk.seen.what')}
        options={observationCodes(world).map((id) => ({ id, label: observationWords(id) }))}
        value={code}
        onChange={setCode}
        flow
      />
      <ChooseOne
        label={say('desk.seen.state')}
        options={states.map((id) => ({ id, label: say(`desk.seen.is.${id}`) }))}
        value={state}
        onChange={setState}
        flow
      />
      {code !== null && (isIllness(code) || code === 'bite') && state === 'present' ? (
        <WillBeTold roles={toldOfIllness} />
      ) : null}
      <div className="row">
        <DayField label={say('desk.seen.on')} value={on} onChange={setOn} />
        <DayField
          label={say('desk.seen.until')}
          hint={say('desk.seen.until-hint')}
          value={until}
          onChange={setUntil}
          onHalf={setHalf}
        />
      </div>
      <Field label={say('desk.seen.note')} value={note} onChange={setNote} lines maxLength={1000} />
    </RecordSheet>
  );
}
