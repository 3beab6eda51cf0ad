import { type Field, fields } from '../../../core/intake/columns/fields.js';
import type { ColumnToAsk } from '../../../core/intake/plan-import.js';
import { say } from '../../../words/say.js';
import { Pick } from '../../parts/fields/pick.js';
import { Notice } from '../../parts/state.js';

/** What a column that may tell who has died or left can be used as. */
const uses: readonly Field[] = ['left', 'leftHow', 'dead', 'returned'];
type Answer = Field | 'nothing';

interface ColumnQuestionProps {
  readonly heading: string;
  /** Null once a person has said that the column tells nothing of it. */
  readonly open: ColumnToAsk | null;
  readonly onUse: (field: Field) => void;
  readonly onNothing: () => void;
}

/** A column that nobody uses and that may tell who has died or left: what it is, or that it does not tell. */
export function ColumnQuestion({ heading, open, onUse, onNothing }: ColumnQuestionProps) {
  const options: { id: Answer; label: string }[] = [
    ...uses.map((id) => ({ id, label: say('desk.import.may-tell.as', { field: say(`desk.import.field.${id}`) }) })),
    { id: 'nothing', label: say('desk.import.may-tell.nothing') },
  ];
  return (
    <div className="stack">
      {open === null ? null : (
        <Notice tone="attention">
          {say('import.ask-may-tell', { heading, rows: open.rows, example: open.example })}
        </Notice>
      )}
      <Pick<Answer>
        label={say('desk.import.may-tell.ask', { heading })}
        options={options}
        value={open === null ? 'nothing' : null}
        onChange={(answer) => {
          const field = fields.find((one) => one === answer);
          if (field === undefined) onNothing();
          else onUse(field);
        }}
      />
    </div>
  );
}
