import { useState } from 'react';
import { consecutiveBox } from '../../../core/chip/box.js';
import { warningsOf } from '../../../log/views/chips/chip-warnings.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { Field } from '../../parts/fields/field.js';
import { Notice } from '../../parts/state.js';
import { readCount } from './read-count.js';

interface ChipBoxFieldsProps {
  readonly codes: readonly string[];
  readonly trouble: string | null;
  /** Answers whether the number was taken. */
  readonly onAdd: (raw: string) => boolean;
  readonly onCodes: (codes: readonly string[]) => void;
}

/** The numbers of a box: scan each pack, or type the first and how many follow it. */
export function ChipBoxFields({ codes, trouble, onAdd, onCodes }: ChipBoxFieldsProps) {
  const [typed, setTyped] = useState('');
  const [count, setCount] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const many = count.trim() === '' ? 1 : readCount(count);
  const taken = (): boolean => {
    setWrong(null);
    if (many === null || many <= 1) return onAdd(typed);
    const box = consecutiveBox(typed, many);
    if (box.ok) onCodes([...new Set([...codes, ...box.value])]);
    else setWrong(say(box.why));
    return box.ok;
  };
  const add = (): void => {
    // A number that was refused stays, to be put right.
    if (!taken()) return;
    setTyped('');
    setCount('');
  };
  return (
    <div className="stack tight">
      <p className="soft">{say('desk.stock.chips-how')}</p>
      <div className="row end">
        <Field label={say('desk.stock.first-chip')} value={typed} onChange={setTyped} figure inputMode="numeric" />
        <Field
          label={say('desk.stock.how-many')}
          value={count}
          onChange={setCount}
          inputMode="numeric"
          narrow
          wrong={many === null ? say('desk.stock.whole') : null}
        />
        <Act onAct={add} disabled={typed.trim() === '' || many === null}>
          {say('desk.stock.add-chips')}
        </Act>
      </div>
      {(wrong ?? trouble) === null ? null : (
        <Notice tone="stop" live="alert">
          {wrong ?? trouble}
        </Notice>
      )}
      <ChipWarnings warnings={warningsOfAll(codes)} />
      <p className="mono small">
        {codes.length === 0
          ? ''
          : `${say('desk.stock.codes', { count: codes.length })}: ${codes.slice(0, 3).map(chipText).join(', ')}${codes.length > 3 ? ' …' : ''}`}
      </p>
    </div>
  );
}

/** What has to be looked at in any number of the box, each reason once. */
function warningsOfAll(codes: readonly string[]) {
  const all = codes.flatMap(warningsOf);
  return all.filter((one, at) => all.findIndex((other) => other.say === one.say) === at);
}
