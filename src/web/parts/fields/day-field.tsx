import { useId, useState } from 'react';
import { CalendarDate } from '../../../core/calendar.js';
import { say } from '../../../words/say.js';

interface DayFieldProps {
  readonly label: string;
  readonly value: CalendarDate | null;
  readonly onChange: (day: CalendarDate | null) => void;
  /** Told whether half a day stands there: where no day is an answer too, that is none. */
  readonly onHalf?: (half: boolean) => void;
  readonly hint?: string;
  readonly required?: boolean;
  readonly narrow?: boolean;
}

/**
 * A calendar day, without time or zone from the field to the record. The browser's own day picker hands back ISO text;
 * a half-typed day is pointed out, never taken as "no day".
 */
export function DayField({ label, value, onChange, onHalf, hint, required = false, narrow = true }: DayFieldProps) {
  const id = useId();
  const [bad, setBad] = useState(false);
  const look = (input: HTMLInputElement): void => {
    setBad(input.validity.badInput);
    onHalf?.(input.validity.badInput);
  };
  const read = (input: HTMLInputElement): void => {
    look(input);
    const day = CalendarDate.safeParse(input.value);
    onChange(day.success ? day.data : null);
  };
  return (
    <div className={narrow ? 'field narrow' : 'field'}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="date"
        required={required}
        value={value ?? ''}
        aria-invalid={bad}
        aria-describedby={`${id}-hint`}
        min="1990-01-01"
        max="2100-12-31"
        onChange={(event) => read(event.currentTarget)}
        onBlur={(event) => look(event.currentTarget)}
      />
      <div id={`${id}-hint`}>
        {hint === undefined ? null : <span className="hint">{hint}</span>}
        {bad ? <div className="wrong">{say('parts.day-half')}</div> : null}
      </div>
    </div>
  );
}
