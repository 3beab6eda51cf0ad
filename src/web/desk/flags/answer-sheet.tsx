import { useState } from 'react';
import { answerFlag } from '../../../log/commands/shelter.js';
import type { Flag } from '../../../log/flag.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { RecordSheet } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { usePerson } from '../../store/here.js';

const answers = ['done', 'explained', 'not-a-problem', 'passed-on'] as const;

/** A flag goes only with an answer in words; the fact it is about stays as it is. */
export function AnswerSheet({ flag, onClose }: { flag: Flag; onClose: () => void }) {
  const [answer, setAnswer] = useState<(typeof answers)[number]>('done');
  const [note, setNote] = useState('');
  const person = usePerson();
  const takesOnOnly = flag.closedBy !== undefined && person?.role !== flag.closedBy;
  return (
    <RecordSheet
      title={say('desk.flags.answer-title', { what: say(`flag-name.${flag.code}`) })}
      intent={answerFlag(flag.key, { answer, note }, now())}
      action={say('desk.flags.answer')}
      onClose={onClose}
    >
      <p>{say(flag.why)}</p>
      {takesOnOnly ? <Notice tone="attention">{say('desk.flags.medical-only')}</Notice> : null}
      <ChooseOne
        label={say('desk.flags.answer-which')}
        options={answers.map((id) => ({ id, label: say(`desk.answer.${id}`) }))}
        value={answer}
        onChange={setAnswer}
        flow
      />
      <Field label={say('desk.flags.note')} value={note} onChange={setNote} lines required maxLength={1000} />
    </RecordSheet>
  );
}
