import { useState } from 'react';
import { lookAtWeight } from '../../../core/bedside/weighing.js';
import { dayOfInstant } from '../../../core/calendar.js';
import type { Weight } from '../../../core/quantity/read-weight.js';
import { dueAtOf } from '../../../log/bedside/order-of-line.js';
import { weighAnimal } from '../../../log/commands/animal.js';
import { notGiven } from '../../../log/commands/round.js';
import type { NotGivenReason } from '../../../log/kinds/treatment.js';
import { say } from '../../../words/say.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { WeightField, weightIn } from '../../parts/fields/weight-field.js';
import { WhenField } from '../../parts/fields/when-field.js';
import { reasonOptions } from '../../parts/not-given-reasons.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { useWorld } from '../../store/here.js';
import { type Keying, onSheet } from './keying.js';

/** A weight as it is written. */
export function KeyInWeight({ keying }: { keying: Keying }) {
  const world = useWorld();
  const { shelter } = world;
  const { stop, view, start } = keying;
  const [at, setAt] = useState<string | null>(start);
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<Weight | null>(null);
  const weight = weightIn(text, shelter.weightUnit, chosen);
  const intent = (): Intent => {
    if (at === null) return { missing: say('parts.time-wrong') };
    if (weight === null) return { missing: say('desk.correct.needs-weight') };
    const { doubtful } = lookAtWeight(stop.animal, weight.grams, at, dayOfInstant(at, shelter.zone));
    const body = { grams: weight.grams, entered: text.trim(), doubtful, round: view.facts.id };
    return onSheet(keying, world, [at], weighAnimal(stop.animal.id, body, at));
  };
  return (
    <>
      <WhenField label={say('desk.correct.when')} start={start} onChange={setAt} />
      <WeightField
        label={say('desk.animal.weight')}
        unit={shelter.weightUnit}
        text={text}
        onText={setText}
        chosen={chosen}
        onChosen={setChosen}
      />
      <RecordFoot intent={intent()} action={say('ribbon.key-in.keep')} onSaved={keying.onKept} />
    </>
  );
}

/** What was not done, and why. */
export function KeyInNotDone({ keying }: { keying: Keying }) {
  const world = useWorld();
  const { stop, view, line, start } = keying;
  const [at, setAt] = useState<string | null>(start);
  const [reason, setReason] = useState<NotGivenReason | null>(null);
  const [note, setNote] = useState('');
  const intent = (): Intent => {
    if (at === null) return { missing: say('parts.time-wrong') };
    if (reason === null) return { missing: say('ribbon.key-in.needs-reason') };
    const dueAt = dueAtOf(stop.animal, world.shelter, line.schedule, at);
    const body = { schedule: line.schedule, reason, note, dueAt, round: view.facts.id };
    return onSheet(keying, world, [at], notGiven(stop.animal.id, body, at), false);
  };
  return (
    <>
      <WhenField label={say('desk.correct.when')} start={start} onChange={setAt} />
      <Pick label={say('round.why')} options={reasonOptions()} value={reason} onChange={setReason} />
      <Field label={say('ribbon.key-in.note')} value={note} onChange={setNote} maxLength={500} />
      <RecordFoot intent={intent()} action={say('ribbon.key-in.keep')} onSaved={keying.onKept} />
    </>
  );
}
