import { useState } from 'react';
import type { CalendarDate } from '../../../core/calendar.js';
import type { AgesToAsk } from '../../../core/intake/plan-import.js';
import type { AgeDay } from '../../../core/intake/taken-in.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { DayField } from '../../parts/fields/day-field.js';

interface AgeQuestionProps {
  /** Null once it is answered. */
  readonly ages: AgesToAsk | null;
  readonly value: AgeDay | null;
  readonly onChange: (value: AgeDay | null) => void;
  readonly today: CalendarDate;
  /** Whether a column is taken as the day of leaving. */
  readonly hasLeaving: boolean;
}

type Choice = 'arrival' | 'leaving' | 'day' | 'not-used';

const choices: readonly Choice[] = ['arrival', 'leaving', 'day', 'not-used'];
const choiceOf = (value: AgeDay | null): Choice | null =>
  value === null ? null : (choices.find((one) => one === value) ?? 'day');

/** On which day the ages of a file were true: nothing is chosen beforehand, and a day has to be given with "one day". */
export function AgeQuestion({ ages, value, onChange, today, hasLeaving }: AgeQuestionProps) {
  const [choice, setChoice] = useState<Choice | null>(choiceOf(value));
  const [day, setDay] = useState<CalendarDate | null>(null);
  const answer = (next: Choice, on: CalendarDate | null): void => {
    setChoice(next);
    setDay(on);
    onChange(next === 'day' ? (on !== null && on <= today ? on : null) : next);
  };
  const offered = choices.filter((one) => one !== 'leaving' || hasLeaving);
  return (
    <div className="stack">
      {ages === null ? null : <p>{say('desk.import.age.why', { ...ages })}</p>}
      <ChooseOne
        label={say('desk.import.age.ask')}
        options={offered.map((id) => ({ id, label: say(`desk.import.age.${id}`) }))}
        value={choice}
        onChange={(next) => answer(next, day)}
      />
      {choice === 'day' ? (
        <DayField
          label={say('desk.import.age.which-day')}
          value={day}
          onChange={(on) => answer('day', on)}
          required
          {...(day !== null && day > today ? { hint: say('desk.import.age.not-past') } : {})}
        />
      ) : null}
    </div>
  );
}
