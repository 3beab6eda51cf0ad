import { useState } from 'react';
import { countLot } from '../../../log/commands/shelter.js';
import type { Lot } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Field } from '../../parts/fields/field.js';
import { RecordSheet } from '../../parts/record-sheet.js';
import { readCount } from './read-count.js';

/** What is really on the shelf; from here on the records count down from it. */
export function CountSheet({ lot, onClose }: { lot: Lot; onClose: () => void }) {
  const [text, setText] = useState('');
  const [note, setNote] = useState('');
  const pieces = readCount(text);
  return (
    <RecordSheet
      title={say('desk.stock.count-lot', { lot: lot.lotText })}
      intent={
        pieces === null
          ? { missing: say('desk.stock.needs-count') }
          : countLot(lot.id, { pieces, volume_ul: lot.volume_ul, note }, now())
      }
      action={say('desk.stock.count')}
      onClose={onClose}
    >
      <Field
        label={say('desk.stock.pieces')}
        value={text}
        onChange={setText}
        inputMode="numeric"
        figure
        narrow
        wrong={text === '' || pieces !== null ? null : say('desk.stock.whole')}
        autoFocus
      />
      <Field label={say('desk.seen.note')} value={note} onChange={setNote} maxLength={300} />
    </RecordSheet>
  );
}
