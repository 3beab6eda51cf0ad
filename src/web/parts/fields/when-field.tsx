import { useState } from 'react';
import { type CalendarDate, instantAt } from '../../../core/calendar.js';
import { wallOf } from '../../../core/wall-time.js';
import { say } from '../../../words/say.js';
import { useShelter } from '../../store/here.js';
import { DayField } from './day-field.js';
import { Field } from './field.js';

interface WhenFieldProps {
  readonly label: string;
  /** An instant; what the fields start with. */
  readonly start: string;
  /** Null while what is typed is no time. */
  readonly onChange: (instant: string | null) => void;
}

/** When something happened, by the clock on the shelter's wall. */
export function WhenField({ label, start, onChange }: WhenFieldProps) {
  const { zone } = useShelter();
  const first = wallOf(start, zone);
  const [day, setDay] = useState<CalendarDate | null>(first.day);
  const [time, setTime] = useState(first.time);
  const read = (nextDay: CalendarDate | null, nextTime: string): void => {
    const good = nextDay !== null && /^([01]?\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(nextTime);
    onChange(
      good
        ? instantAt(
            nextDay,
            nextTime.padStart(nextTime.length === 4 || nextTime.length === 7 ? nextTime.length + 1 : 0, '0'),
            zone,
          )
        : null,
    );
  };
  const bad = !/^([01]?\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(time);
  return (
    <div className="row end">
      <DayField
        label={label}
        value={day}
        onChange={(next) => {
          setDay(next);
          read(next, time);
        }}
      />
      <Field
        label={say('parts.time')}
        value={time}
        onChange={(next) => {
          setTime(next);
          read(day, next);
        }}
        wrong={bad ? say('parts.time-wrong') : null}
        narrow
      />
    </div>
  );
}
