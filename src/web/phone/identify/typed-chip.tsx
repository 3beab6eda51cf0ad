import { useState } from 'react';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Field } from '../../parts/fields/field.js';

/**
 * For a reader that only shows the number: typed, and marked as typed on the record. `onTyped` answers whether it was
 * taken: a number that was not stays in the field, to be put right.
 */
export function TypedChip({ onTyped }: { onTyped: (text: string) => Promise<boolean> }) {
  const [text, setText] = useState('');
  const done = async (): Promise<void> => {
    if (await onTyped(text)) setText('');
  };
  return (
    <>
      <Field
        label={say('round.identify.typed')}
        value={text}
        onChange={setText}
        inputMode="numeric"
        figure
        maxLength={60}
      />
      <Act size="mid" disabled={text.trim() === ''} onAct={done}>
        {say('round.chip.use-typed')}
      </Act>
    </>
  );
}
