import { useState } from 'react';
import { longestPlan_days } from '../../../core/animal/follow-up.js';
import { type CalendarDate, dayOfInstant, daysBetween } from '../../../core/calendar.js';
import { followUpTest } from '../../../log/commands/animal.js';
import type { Flag } from '../../../log/flag.js';
import { nameOf } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { now, useToday } from '../../clock.js';
import { ChooseOne, Tick } from '../../parts/fields/choices.js';
import { DayField } from '../../parts/fields/day-field.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { nothingTold, ToldFields, toldOf } from '../../parts/fields/told-fields.js';
import { type Intent, RecordSheet } from '../../parts/record-sheet.js';
import { usePeople, useWorld } from '../../store/here.js';

const ways = ['plan', 'result'] as const;
const outcomes = ['confirmed', 'not-confirmed', 'unclear'] as const;

/** What follows a reactive test: the result of another method, or a plan with a day and a person. Nothing else closes it. */
export function FollowUpSheet({ flag, onClose }: { flag: Flag; onClose: () => void }) {
  const world = useWorld();
  const { shelter } = world;
  const people = usePeople();
  const today = useToday(shelter.zone);
  const [is, setIs] = useState<(typeof ways)[number] | null>(null);
  const [texts, setTexts] = useState({ plan: '', result: '' });
  const [on, setOn] = useState<CalendarDate | null>(today);
  const [outcome, setOutcome] = useState<(typeof outcomes)[number] | null>(null);
  const [person, setPerson] = useState<string | null>(null);
  const [byPhone, setByPhone] = useState(false);
  const [heard, setHeard] = useState(nothingTold);
  const animal = flag.animal === null ? undefined : world.animals.get(flag.animal);
  const run = animal?.runs.find((one) => one.readRecord === flag.about);
  if (animal === undefined || run === undefined) return null;
  const medical = people.filter((one) => one.active && one.role === 'medical');
  const readOn = dayOfInstant(run.readAt ?? now(), shelter.zone);
  const who = medical.find((one) => one.id === person);

  const intent = (): Intent => {
    if (is === null) return { missing: say('desk.follow-up.why') };
    const missing = say(is === 'plan' ? 'desk.follow-up.needs-plan' : 'desk.follow-up.needs-result');
    const words = texts[is].trim();
    if (words === '' || on === null || who === undefined) return { missing };
    const word = { schedule: run.schedule, person: who.id };
    if (is === 'plan') {
      if (on < today || daysBetween(today, on) > longestPlan_days) {
        return { missing: say('desk.follow-up.plan-when', { days: longestPlan_days }) };
      }
      return followUpTest(animal.id, { ...word, says: { is, what: words, on } }, now());
    }
    if (outcome === null) return { missing };
    if (on > today || on < readOn) return { missing: say('desk.follow-up.result-when', { date: { date: readOn } }) };
    const told = byPhone ? toldOf(heard) : null;
    if (byPhone && told === null) return { missing: say('told.needs-read-back') };
    return followUpTest(animal.id, { ...word, says: { is, method: words, outcome, on }, told }, now());
  };
  return (
    <RecordSheet
      title={say('desk.follow-up.title', { animal: nameOf(animal) })}
      intent={intent()}
      action={say(is === 'result' ? 'desk.follow-up.do.result' : 'desk.follow-up.do.plan')}
      onClose={onClose}
    >
      <p>{say(flag.why)}</p>
      <p>{say('desk.follow-up.why')}</p>
      <ChooseOne
        label={say('desk.follow-up.what')}
        options={ways.map((id) => ({ id, label: say(`desk.follow-up.is.${id}`) }))}
        value={is}
        onChange={setIs}
        flow
      />
      {is === null ? null : (
        <>
          <Field
            label={say(is === 'plan' ? 'desk.follow-up.plan-what' : 'desk.follow-up.method')}
            value={texts[is]}
            onChange={(text) => setTexts({ ...texts, [is]: text })}
            maxLength={200}
            required
          />
          {is === 'plan' ? null : (
            <ChooseOne
              label={say('desk.follow-up.outcome')}
              options={outcomes.map((id) => ({ id, label: say(`desk.follow-up.outcome.${id}`) }))}
              value={outcome}
              onChange={setOutcome}
              flow
            />
          )}
          {is === 'plan' ? null : (
            <>
              <Tick label={say('told.by-telephone')} value={byPhone} onChange={setByPhone} />
              {byPhone ? <ToldFields value={heard} onChange={setHeard} from /> : null}
            </>
          )}
          <DayField
            label={say(is === 'plan' ? 'desk.follow-up.plan-on' : 'desk.follow-up.result-on')}
            value={on}
            onChange={setOn}
          />
          <Pick
            label={say('desk.follow-up.person')}
            options={medical.map((one) => ({ id: one.id as string, label: one.name }))}
            value={person}
            onChange={setPerson}
          />
        </>
      )}
    </RecordSheet>
  );
}
