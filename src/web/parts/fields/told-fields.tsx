import type { Told } from '../../../log/kinds/told.js';
import { say } from '../../../words/say.js';
import { ChooseOne } from './choices.js';
import { Field } from './field.js';

const answers = ['yes', 'no'] as const;

/** What is asked about something told by telephone; `readBack` is null until it has been said. */
export interface ToldInput {
  readonly readBack: boolean | null;
  readonly from: string;
}
export const nothingTold: ToldInput = { readBack: null, from: '' };

/** As it goes on record; null while nobody has said whether it was read back. */
export const toldOf = ({ readBack, from }: ToldInput): Told | null =>
  readBack === null ? null : { how: 'telephone', readBack, from: from.trim() };

interface ToldFieldsProps {
  readonly value: ToldInput;
  readonly onChange: (next: ToldInput) => void;
  /** Whether a laboratory or clinic is asked for, which is nobody on the list of people. */
  readonly from?: boolean;
}

/** Said back to whoever told it, and confirmed: trade practice for everything that is told by telephone. */
export function ToldFields({ value, onChange, from = false }: ToldFieldsProps) {
  return (
    <>
      {from ? (
        <Field
          label={say('told.from')}
          hint={say('told.from-hint')}
          value={value.from}
          onChange={(next) => onChange({ ...value, from: next })}
          maxLength={120}
        />
      ) : null}
      <ChooseOne
        label={say('told.read-back')}
        options={answers.map((id) => ({ id, label: say(`told.read-back.${id}`) }))}
        value={value.readBack === null ? null : value.readBack ? 'yes' : 'no'}
        onChange={(id) => onChange({ ...value, readBack: id === 'yes' })}
        flow
      />
    </>
  );
}
