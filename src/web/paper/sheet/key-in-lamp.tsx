import { useState } from 'react';
import { type LampAnswer, lampAnswers, lampCode } from '../../../core/animal/lamp.js';
import { dayOfInstant } from '../../../core/calendar.js';
import { noteObservation } from '../../../log/commands/animal.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { WhenField } from '../../parts/fields/when-field.js';
import { type Intent, RecordFoot } from '../../parts/record-sheet.js';
import { useWorld } from '../../store/here.js';
import { type Keying, onSheet } from './keying.js';

/** The lamp on a sheet of paper: which of its answers was ticked. */
export function KeyInLamp({ keying }: { keying: Keying }) {
  const world = useWorld();
  const { stop, view, start } = keying;
  const [answer, setAnswer] = useState<LampAnswer | null>(null);
  const [at, setAt] = useState<string | null>(start);
  const [note, setNote] = useState('');
  const intent = (): Intent => {
    if (at === null) return { missing: say('parts.time-wrong') };
    if (answer === null) return { missing: say('ribbon.key-in.needs-lamp') };
    const on = dayOfInstant(at, world.shelter.zone);
    const seen = { code: lampCode, state: 'present' as const, answer, on, note, round: view.facts.id };
    return onSheet(keying, world, [at], noteObservation(stop.animal.id, seen, at));
  };
  return (
    <>
      <ChooseOne<LampAnswer>
        label={say('ribbon.key-in.lamp')}
        options={lampAnswers.map((id) => ({ id, label: say(`round.lamp.${id}`) }))}
        value={answer}
        onChange={setAnswer}
      />
      <WhenField label={say('desk.correct.when')} start={start} onChange={setAt} />
      <Field label={say('ribbon.key-in.note')} value={note} onChange={setNote} maxLength={500} />
      <RecordFoot intent={intent()} action={say('ribbon.key-in.keep')} onSaved={keying.onKept} />
    </>
  );
}
