import { useState } from 'react';
import { type CalendarDate, dayOfInstant, instantAt } from '../../../core/calendar.js';
import { say } from '../../../words/say.js';
import { Tick } from '../../parts/fields/choices.js';
import { DayField } from '../../parts/fields/day-field.js';
import { Field } from '../../parts/fields/field.js';
import { useShelter } from '../../store/here.js';

/** A time on paper: typed, or said not to be there; `open` while neither is so. */
export type PaperTime = { readonly is: 'at'; readonly at: string } | { readonly is: 'not-written' | 'open' };

export const noTimeYet: PaperTime = { is: 'open' };
export const instantOf = (time: PaperTime): string | null => (time.is === 'at' ? time.at : null);

interface PaperTimeFieldProps {
  readonly label: string;
  /** An instant of the day of the sheet. */
  readonly start: string;
  readonly onChange: (time: PaperTime) => void;
}

const shape = /^([01]?\d|2[0-3])[:.]?([0-5]\d)$/;

/** When something happened, by what is written; nothing stands there beforehand, because a time decides what a test is worth. */
export function PaperTimeField({ label, start, onChange }: PaperTimeFieldProps) {
  const { zone } = useShelter();
  const [day, setDay] = useState<CalendarDate | null>(dayOfInstant(start, zone));
  const [text, setText] = useState('');
  const [without, setWithout] = useState(false);
  const read = (on: CalendarDate | null, typed: string): PaperTime => {
    const time = shape.exec(typed.trim());
    if (on === null || time === null) return noTimeYet;
    return { is: 'at', at: instantAt(on, `${(time[1] ?? '').padStart(2, '0')}:${time[2]}`, zone) };
  };
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
        wrong={text !== '' && !shape.test(text.trim()) ? say('parts.time-wrong') : null}
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
