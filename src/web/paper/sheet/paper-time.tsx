import { useState } from 'react';
import { type CalendarDate, dayOfInstant } from '../../../core/calendar.js';
import { isTime, type PaperTime, readPaperTime } from '../../../papers/keyed-in/paper-time.js';
import { say } from '../../../words/say.js';
import { Tick } from '../../parts/fields/choices.js';
import { DayField } from '../../parts/fields/day-field.js';
import { Field } from '../../parts/fields/field.js';
import { useShelter } from '../../store/here.js';

interface PaperTimeFieldProps {
  readonly label: string;
  /** An instant of the day of the sheet. */
  readonly start: string;
  readonly onChange: (time: PaperTime) => void;
}

/** When something happened, by what is written; nothing stands there beforehand, because a time decides what a test is worth. */
export function PaperTimeField({ label, start, onChange }: PaperTimeFieldProps) {
  const { zone } = useShelter();
  const [day, setDay] = useState<CalendarDate | null>(dayOfInstant(start, zone));
  const [text, setText] = useState('');
  const [without, setWithout] = useState(false);
  const read = (on: CalendarDate | null, typed: string): PaperTime => readPaperTime(on, typed, zone);
  return (
    <div className="row end">
      <DayField
        label={say('ribbon.key-in.day', { what: label })}
        value={day}
        onChange={(next) => {
          setDay(next);
          if (!without) onChange(read(next, text));
        }}
      />
      <Field
        label={label}
        value={text}
        onChange={(next) => {
          setText(next);
          onChange(read(day, next));
        }}
        wrong={text !== '' && !isTime(text) ? say('parts.time-wrong') : null}
        disabled={without}
        narrow
      />
      <Tick
        label={say('ribbon.key-in.no-time')}
        value={without}
        onChange={(next) => {
          setWithout(next);
          onChange(next ? { is: 'not-written' } : read(day, text));
        }}
      />
    </div>
  );
}
