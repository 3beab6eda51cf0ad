import type { ReactNode } from 'react';
import { FieldError, Input, Label, Text, TextArea, TextField } from 'react-aria-components';

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (text: string) => void;
  readonly hint?: ReactNode;
  /** Why what stands in the field cannot be taken; it stays there. */
  readonly wrong?: string | null;
  /** How it was understood. */
  readonly echo?: ReactNode;
  readonly required?: boolean;
  readonly lines?: boolean;
  readonly narrow?: boolean;
  readonly figure?: boolean;
  readonly inputMode?: 'text' | 'decimal' | 'numeric';
  readonly maxLength?: number;
  readonly autoFocus?: boolean;
  readonly disabled?: boolean;
  readonly type?: 'text' | 'search' | 'password';
  /** What Enter does in it: the same as the button of the page. */
  readonly onEnter?: () => void;
}

export function Field(props: FieldProps) {
  const {
    label,
    value,
    onChange,
    hint,
    wrong = null,
    echo,
    required = false,
    lines,
    narrow,
    figure,
    inputMode,
  } = props;
  return (
    <TextField
      className={`field${narrow ? ' narrow' : ''}${figure ? ' figure-entry' : ''}`}
      value={value}
      onChange={onChange}
      isInvalid={wrong !== null}
      isRequired={required}
      isDisabled={props.disabled ?? false}
      validationBehavior="aria"
      type={props.type ?? 'text'}
      {...(inputMode === undefined ? {} : { inputMode })}
      {...(props.maxLength === undefined ? {} : { maxLength: props.maxLength })}
      autoFocus={props.autoFocus ?? false}
      autoComplete="off"
      spellCheck="false"
    >
      <Label>{label}</Label>
      {lines ? (
        <TextArea />
      ) : (
        <Input
          onKeyDown={(event) => {
            if (event.key === 'Enter' && !event.defaultPrevented) props.onEnter?.();
          }}
        />
      )}
      {hint === undefined ? null : (
        <Text slot="description" className="hint">
          {hint}
        </Text>
      )}
      {echo === undefined ? null : (
        <div className="echo" aria-live="polite">
          {echo}
        </div>
      )}
      <FieldError className="wrong">{wrong}</FieldError>
    </TextField>
  );
}
