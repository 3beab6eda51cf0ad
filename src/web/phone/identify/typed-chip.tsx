import { useState } from 'react';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Field } from '../../parts/fields/field.js';

/** For a reader that only shows the number: typed, and marked as typed on the record. */
export function TypedChip({ wrong, onTyped }: { wrong: string | null; onTyped: (text: string) => Promise<void> }) {
  const [text, setText] = useState('');
  const done = async (): Promise<void> => {
    await onTyped(text);
    setText('');
  };
  return (
    <>
      <Field
        label={say('round.identify.typed')}
        value={text}
        onChange={setText}
        inputMode="numeric"
        figure
        wrong={wrong}
        maxLength={60}
      />
      <Act size="mid" disabled={text.trim() === ''} onAct={done}>
        {say('round.chip.use-typed')}
      </Act>
    </>
  );
}
