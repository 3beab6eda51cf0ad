import { useState } from 'react';
import type { CalendarDate } from '../../../../core/calendar.js';
import type { ProductId, ScheduleId } from '../../../../core/ids.js';
import type { Weight } from '../../../../core/quantity/read-weight.js';
import type { Shelter } from '../../../../log/views/shelter.js';
import { observationCodes, observationWords } from '../../../../told/codes.js';
import { say } from '../../../../words/say.js';
import { Act } from '../../../parts/act.js';
import { DayField } from '../../../parts/fields/day-field.js';
import { Pick } from '../../../parts/fields/pick.js';
import { WeightField, weightIn } from '../../../parts/fields/weight-field.js';
import { useShelter, useWorld } from '../../../store/here.js';
import type { Pretence } from './pretence.js';

interface FieldsProps {
  readonly today: CalendarDate;
  readonly pretence: Pretence;
  readonly onChange: (pretence: Partial<Pretence>) => void;
}

const none = 'none';
const states = ['present', 'absent'] as const;

export function PretenceFields({ today, pretence, onChange }: FieldsProps) {
  const world = useWorld();
  const shelter = useShelter();
  const [day, setDay] = useState<CalendarDate | null>(null);
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<Weight | null>(null);
  const [round, setRound] = useState(0);
  const { dose, seen } = pretence;

  const change = (part: Partial<Pretence>): void => onChange({ ...pretence, day: day ?? today, ...part });
  const weigh = (next: string, picked: Weight | null): void => {
    setText(next);
    setChosen(picked);
    change({ grams: weightIn(next, shelter.weightUnit, picked)?.grams ?? null });
  };
  const clear = (): void => {
    setDay(null);
    setText('');
    setChosen(null);
    setRound(round + 1);
    onChange({});
  };
  const doses = dosesOf(shelter);
  const chosenDose = dose === null ? none : `${dose.schedule} ${dose.product}`;
  return (
    <div className="stack" key={round}>
      <div className="row top filters">
        <DayField
          label={say('what-if.day')}
          value={day ?? today}
          onChange={(next) => {
            setDay(next);
            change({ day: next ?? today });
          }}
        />
        <WeightField
          label={say('what-if.weight')}
          unit={shelter.weightUnit}
          text={text}
          onText={(next) => weigh(next, null)}
          chosen={chosen}
          onChosen={(next) => (next === null ? undefined : weigh(text, next))}
        />
      </div>
      <div className="row top filters">
        <Pick
          label={say('what-if.dose')}
          options={[{ id: none, label: say('what-if.no-dose') }, ...doses]}
          value={chosenDose}
          onChange={(key) => change({ dose: doseIn(shelter, key, dose?.on ?? day ?? today) })}
        />
        {dose === null ? null : (
          <DayField
            label={say('what-if.dose-day')}
            value={dose.on}
            onChange={(on) => change({ dose: { ...dose, on: on ?? today } })}
          />
        )}
      </div>
      <div className="row top filters">
        <Pick
          label={say('what-if.seen')}
          options={[
            { id: none, label: say('what-if.no-seen') },
            ...observationCodes(world).map((code) => ({ id: code, label: observationWords(code) })),
          ]}
          value={seen?.code ?? none}
          onChange={(code) => change({ seen: code === none ? null : { code, state: seen?.state ?? 'present' } })}
        />
        {seen === null ? null : (
          <Pick
            label={say('desk.seen.state')}
            options={states.map((id) => ({ id, label: say(`desk.seen.is.${id}`) }))}
            value={seen.state}
            onChange={(state) => change({ seen: { ...seen, state } })}
            narrow
          />
        )}
      </div>
      <div>
        <Act size="small" onAct={clear}>
          {say('what-if.clear')}
        </Act>
      </div>
    </div>
  );
}

/** Every product under each schedule it satisfies. */
function dosesOf(shelter: Shelter): { id: string; label: string; note: string }[] {
  const schedules = (shelter.protocol?.schedules ?? []).filter((one) => one.active && one.action === 'give');
  return schedules.flatMap((schedule) =>
    (shelter.formulary?.products ?? [])
      .filter((product) => schedule.satisfiedBy.some((name) => product.classes.includes(name)))
      .map((product) => ({ id: `${schedule.id} ${product.id}`, label: product.name, note: schedule.name })),
  );
}

function doseIn(shelter: Shelter, key: string, on: CalendarDate): Pretence['dose'] {
  const [schedule, product] = key.split(' ');
  const named = shelter.protocol?.schedules.find((one) => one.id === schedule);
  const found = shelter.formulary?.products.find((one) => one.id === product);
  if (named === undefined || found === undefined) return null;
  return { schedule: named.id as ScheduleId, product: found.id as ProductId, on };
}
