import { useState } from 'react';
import type { BirthInterval } from '../../../core/animal/animal.js';
import { addDays, type CalendarDate } from '../../../core/calendar.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { DayField } from '../../parts/fields/day-field.js';
import { Field } from '../../parts/fields/field.js';

const ways = ['known', 'age', 'between', 'unknown'] as const;
type Way = (typeof ways)[number];

interface BirthFieldsProps {
  readonly today: CalendarDate;
  readonly value: BirthInterval | null;
  readonly onChange: (born: BirthInterval | null) => void;
}

/** Day of birth, or an age in weeks give or take, or two days between which it was born. */
export function BirthFields({ today, value, onChange }: BirthFieldsProps) {
  const [way, setWay] = useState<Way>(value === null ? 'age' : value.earliest === value.latest ? 'known' : 'between');
  const [weeks, setWeeks] = useState('');
  const [spread, setSpread] = useState('1');
  const [from, setFrom] = useState<CalendarDate | null>(value?.earliest ?? null);
  const [to, setTo] = useState<CalendarDate | null>(value?.latest ?? null);

  const tell = (next: {
    way?: Way;
    weeks?: string;
    spread?: string;
    from?: CalendarDate | null;
    to?: CalendarDate | null;
  }): void => {
    const now = { way, weeks, spread, from, to, ...next };
    setWay(now.way);
    setWeeks(now.weeks);
    setSpread(now.spread);
    setFrom(now.from);
    setTo(now.to);
    onChange(bornOf(now, today));
  };
  const whole = /^\d{1,4}$/;
  return (
    <div className="stack">
      <ChooseOne
        label={say('desk.birth.title')}
        options={ways.map((id) => ({ id, label: say(`desk.birth.way.${id}`) }))}
        value={way}
        onChange={(next) => tell({ way: next })}
        flow
      />
      {way === 'known' ? (
        <DayField label={say('desk.birth.day')} value={from} onChange={(day) => tell({ from: day, to: day })} />
      ) : null}
      {way === 'age' ? (
        <div className="row">
          <Field
            label={say('desk.birth.weeks')}
            value={weeks}
            onChange={(text) => tell({ weeks: text })}
            inputMode="numeric"
            narrow
            wrong={weeks === '' || whole.test(weeks) ? null : say('desk.birth.whole-weeks')}
          />
          <Field
            label={say('desk.birth.spread')}
            value={spread}
            onChange={(text) => tell({ spread: text })}
            inputMode="numeric"
            narrow
            wrong={whole.test(spread) ? null : say('desk.birth.whole-weeks')}
          />
        </div>
      ) : null}
      {way === 'between' ? (
        <div className="row">
          <DayField label={say('desk.birth.from')} value={from} onChange={(day) => tell({ from: day })} />
          <DayField label={say('desk.birth.to')} value={to} onChange={(day) => tell({ to: day })} />
        </div>
      ) : null}
    </div>
  );
}

interface Typed {
  readonly way: Way;
  readonly weeks: string;
  readonly spread: string;
  readonly from: CalendarDate | null;
  readonly to: CalendarDate | null;
}

/** An animal of unknown birth may be up to 20 years old (ours): every rule then sees the end that it asks about. */
const oldest_days = 20 * 365;

function bornOf({ way, weeks, spread, from, to }: Typed, today: CalendarDate): BirthInterval | null {
  switch (way) {
    case 'known':
      return from === null ? null : { earliest: from, latest: from, basis: 'known' };
    case 'between':
      return from === null || to === null ? null : { earliest: from, latest: to, basis: 'estimated' };
    case 'unknown':
      return { earliest: addDays(today, -oldest_days), latest: today, basis: 'unknown' };
    case 'age': {
      if (!/^\d{1,4}$/.test(weeks) || !/^\d{1,4}$/.test(spread)) return null;
      const middle = Number(weeks) * 7;
      const give = Number(spread) * 7;
      return {
        earliest: addDays(today, -(middle + give)),
        latest: addDays(today, -Math.max(0, middle - give)),
        basis: 'estimated',
      };
    }
  }
}
