import { say } from '../../words/say.js';
import { Field } from '../parts/fields/field.js';

interface SecretFieldProps {
  readonly value: string;
  readonly onChange: (text: string) => void;
  readonly onEnter?: () => void;
  readonly label?: string;
  readonly hint?: string;
}

/** A password or a PIN in one field; what is pasted is taken. */
export function SecretField({ value, onChange, onEnter, label, hint }: SecretFieldProps) {
  return (
    <Field
      label={label ?? say('people.in.secret')}
      value={value}
      onChange={onChange}
      type="password"
      maxLength={256}
      {...(hint === undefined ? {} : { hint })}
      {...(onEnter === undefined ? {} : { onEnter })}
    />
  );
}
